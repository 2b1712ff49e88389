import { type Asked, feeDue, lapsingDays, readErrand, readHolds, readWay } from '../../readiness/index.ts';
import { addDays } from '../../vocabulary/days.ts';
import type { Finding, Way, WayStop } from '../../vocabulary/finding.ts';
import type { Errand } from '../../vocabulary/practice.ts';
import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type { FindingCounts, HoldRow, SoonRow, TodayAnswer, TodayErrand } from '../contract/screen-answers.ts';
import { kindTitle } from '../named.ts';
import { askedOf, errandTitle, officeCard, subjectTitle } from './asked.ts';
import { carryRow } from './carry-row.ts';
import { bookedRow, bookingRow } from './inspections/coming.ts';
import { correctionRows } from './inspections/corrections.ts';
import { safetyCopiesOf } from './safety-copies.ts';
import { amissAndSoon } from './soon-rows.ts';
import { beginWith, shutHolds } from './way-rows.ts';
import { backRow, waitingRow } from './with-them.ts';

function countsOf(findings: readonly Finding[]): FindingCounts {
  const count = (weight: Finding['weight']): number => findings.filter((finding) => finding.weight === weight).length;
  return {
    refused: count('refused'),
    questioned: count('questioned'),
    'ask first': count('ask first'),
    'good to know': count('good to know'),
  };
}

function listed(titles: readonly string[]): string {
  const shown = titles.slice(0, 3).map((title) => `"${title}"`);
  const rest = titles.length - shown.length;
  if (rest > 0) return `${shown.join(', ')} and ${rest} more`;
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(', ')} and ${shown.at(-1)}`;
}

/** What an errand opens up: the errands that wait for it, else the holds, else what it brings home. */
function opensUp(stop: WayStop, found: Way, asked: Asked): string {
  const { practice } = asked;
  const next = found.stops.filter((other) => other.earliest !== undefined && other.waitsFor.includes(stop.errand));
  const titles = [...new Set(next.map(({ errand }) => errandTitle(practice, errand)))];
  const holds = readHolds(asked).filter(
    ({ happened, waitsFor }) => happened === undefined && waitsFor.includes(stop.errand),
  );
  const gates = holds.length === 0 ? '' : ` It stands under ${listed(holds.map(({ title }) => title))}.`;
  if (titles.length > 0) return `${listed(titles)} ${titles.length === 1 ? 'waits' : 'wait'} for it.${gates}`;
  if (gates !== '') return gates.trimStart();
  const brings = (practice.errands[stop.errand]?.yields ?? []).map((kind) => kindTitle(practice, kind));
  return brings.length === 0 ? 'Nothing else waits for it.' : `It brings ${listed(brings)}; nothing else waits for it.`;
}

/** Disagreements between papers that this errand takes along and others. */
function settleFirst(errand: Errand, amiss: readonly SoonRow[]): readonly string[] {
  const taken = new Set(errand.needs.flatMap(({ kinds }) => kinds));
  return amiss
    .filter(({ sort, kind, waysOut = [] }) => {
      const about = [kind, ...waysOut.map((way) => way.kind)];
      return sort === 'disagree' && about.some((one) => one !== undefined && taken.has(one));
    })
    .map(({ say }) => say);
}

/** The rest first: what is brought home on a paper that has to change may be for nothing. */
function disputedLast(errands: readonly TodayErrand[]): readonly TodayErrand[] {
  const disputed = (one: TodayErrand): boolean => one.settleFirst.length > 0 && one.state !== 'sent back';
  return [...errands.filter((one) => !disputed(one)), ...errands.filter(disputed)];
}

function todayErrand(
  stop: WayStop,
  { found, amiss }: { readonly found: Way; readonly amiss: readonly SoonRow[] },
  asked: Asked,
): TodayErrand | undefined {
  const errand = asked.practice.errands[stop.errand];
  if (errand === undefined) return undefined;
  const reading = readErrand(stop.errand, { ...asked, subject: stop.subject });
  const { fee, feeNote } = feeDue(stop.errand, { ...asked, subject: stop.subject });
  return {
    errand: stop.errand,
    subject: stop.subject,
    subjectTitle: subjectTitle(asked.lot, stop.subject),
    title: errand.title,
    office: officeCard(asked.practice, errand.office, errand),
    why: opensUp(stop, found, asked),
    spare: stop.spare,
    fee,
    feeNote,
    state: stop.state,
    heaviest: stop.heaviest,
    carry: reading.needs.map((need) => carryRow(need, errand, asked)),
    bring: errand.bring,
    onSite: errand.onSite ?? [],
    booking: bookingRow(errand, stop.earliest, asked),
    booked: bookedRow(errand, stop.subject, asked),
    ask: errand.ask,
    findings: countsOf(reading.findings),
    caution: errand.caution,
    settleFirst: settleFirst(errand, amiss),
  };
}

/** The stops behind today's errands, in its order; those sent back come first, for somebody waits there already. */
function todaysStops(found: Way): readonly WayStop[] {
  const ready = found.stops.filter(
    ({ state, tooSoon }) => (state === 'can go' || state === 'sent back') && tooSoon === undefined,
  );
  const stops = found.today.flatMap((id) => ready.filter(({ errand }) => errand === id));
  const [first] = stops.flatMap((stop) => stop.earliest ?? []).toSorted((a, b) => (a < b ? -1 : 1));
  const now = stops.filter((stop) => stop.earliest === first);
  return [...now.filter(({ state }) => state === 'sent back'), ...now.filter(({ state }) => state !== 'sent back')];
}

/** Holds somebody could be about to break: what they wait for can be gone on within the month, or is unknown. */
function holdsNow(found: Way, asked: Asked): readonly HoldRow[] {
  const until = addDays(asked.day, lapsingDays);
  const near = new Set(
    found.stops.flatMap(({ errand, earliest, state }) =>
      state === 'left with them' || state === 'sent back' || (earliest !== undefined && earliest <= until)
        ? [errandTitle(asked.practice, errand)]
        : [],
    ),
  );
  return shutHolds(asked).filter(({ unknown, waitsFor }) => unknown || waitsFor.some((title) => near.has(title)));
}

function nextEvents(asked: Asked): TodayAnswer['events'] {
  const happened = new Set(asked.lot.events.filter(({ day }) => day <= asked.day).map(({ event }) => event));
  const caused = new Set(Object.values(asked.practice.errands).flatMap(({ causes }) => causes));
  const shut = new Set(shutHolds(asked).map(({ event }) => event));
  return Object.values(asked.practice.events)
    .filter(({ id }) => !happened.has(id) && !caused.has(id))
    .map(({ id, title }) => ({ event: id, title, shut: shut.has(id) }));
}

/** The slip for the day. */
export const today = onLot(requests.today, (_input, at): TodayAnswer => {
  const asked = askedOf(at);
  const found = readWay(asked);
  const { amiss, soon } = amissAndSoon(asked);
  const back = found.stops
    .filter(({ state }) => state === 'sent back')
    .flatMap((stop) => backRow(stop, asked, at.lot) ?? [])
    .map((row) => ({ ...row, comments: row.comments.filter(({ answered }) => answered === undefined) }));
  const trouble = safetyCopiesOf(at).trouble();
  return {
    day: asked.day,
    troubles: trouble === undefined ? [] : [trouble],
    can: disputedLast(todaysStops(found).flatMap((stop) => todayErrand(stop, { found, amiss }, asked) ?? [])),
    waiting: found.stops
      .filter(({ state }) => state === 'left with them')
      .flatMap((stop) => waitingRow(stop, asked) ?? []),
    back,
    corrections: correctionRows(found.stops, asked, at.lot).filter(
      ({ open, errand, subject }) => open > 0 && !back.some((row) => row.errand === errand && row.subject === subject),
    ),
    amiss,
    soon,
    holds: holdsNow(found, asked),
    events: nextEvents(asked),
    target: asked.lot.target,
    finish: found.finish,
    beginWith: beginWith(found, asked),
  };
});
