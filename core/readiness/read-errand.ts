import { type Day, spanInWords } from '../vocabulary/days.ts';
import type {
  CameBack,
  ErrandReading,
  ErrandState,
  Finding,
  FindingSort,
  NeedReading,
  WithThem,
} from '../vocabulary/finding.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import { moneyInWords } from '../vocabulary/money.ts';
import type { Basis, Errand, ErrandId } from '../vocabulary/practice.ts';
import { sayDecision } from './befores.ts';
import { bookingDays } from './bookings.ts';
import { isOpenDay, plusSpan } from './calendar.ts';
import { dutiesAt } from './duties.ts';
import { caseKey, casesOf, errandApplies, latestVisit, unsettledResult } from './errand-case.ts';
import { type Examined, examine } from './examine.ts';
import { officeTitle, openQuestions, paperTitle } from './need-case.ts';
import type { NeedDraft } from './needs.ts';
import { asFarAsKnown, byWeight, lighter, type Problem } from './problem.ts';
import { findingOf } from './remedy.ts';
import { ridersAt } from './riders.ts';
import { type Asked, type ErrandCase, errandOf, indexLot, type Standpoint } from './standpoint.ts';
import { broughtBack } from './visits.ts';
import { dueBack } from './way/dating.ts';
import { datedGraphAt } from './way/read-way.ts';
import { factOf } from './whole-edition.ts';
import { dayWords, weekdayWords } from './words.ts';

function note(
  one: ErrandCase,
  about: { readonly sort: FindingSort; readonly basis?: Basis },
  told: { readonly say: string; readonly why: string; readonly remedy: string },
): Finding {
  return {
    weight: 'good to know',
    sort: about.sort,
    errand: one.errand.id,
    subject: one.subject,
    office: one.errand.office,
    say: told.say,
    why: told.why,
    basis: about.basis ?? one.errand.basis,
    remedy: { say: told.remedy },
    final: false,
  };
}

/** On whose word one value of an errand stands, by its name in a practice file. */
function wordFor({ said, basis }: Errand, value: string): Basis {
  return said?.[value] ?? basis;
}

/** What to carry and who has to come. */
function thingsToBring(at: Standpoint, one: ErrandCase): readonly Finding[] {
  const { errand } = one;
  const office = Object.hasOwn(at.practice.offices, errand.office) ? at.practice.offices[errand.office] : undefined;
  const title = officeTitle(at, errand.office);
  const people = new Set([errand.appear, office?.appear].filter((who) => who !== undefined));
  const things = errand.bring.map((thing) => ({
    basis: wordFor(errand, 'bring'),
    say: `Bring: ${thing}.`,
    why: `${title} asks for it at the visit.`,
    remedy: 'Lay it by the door.',
  }));
  const ready = (errand.onSite ?? []).map((thing) => ({
    basis: wordFor(errand, 'on_site'),
    say: `Ready on the site: ${thing}.`,
    why: `${title} looks for it there.`,
    remedy: 'Have it there before they come.',
  }));
  const comers = [...people].map((who) => ({
    basis: who === errand.appear ? wordFor(errand, 'appear') : (office?.basis ?? errand.basis),
    say: `Who has to come: ${who}.`,
    why: `${title} won't act without.`,
    remedy: 'Agree on a day together.',
  }));
  return [...things, ...ready, ...comers].map(({ basis, ...told }) => note(one, { sort: 'bring', basis }, told));
}

/** The first day they can come, and the last moment to book it. */
function booking(at: Standpoint, one: ErrandCase): readonly { say: string; why: string; remedy: string }[] {
  const { errand } = one;
  const { book, againFee } = errand;
  if (book === undefined) return [];
  const first = firstDay(at, one);
  const { soonest, by } = bookingDays(book, first, at);
  // Nobody can book what something else has to come before.
  const call =
    first === undefined ? `: book it by ${weekdayWords(by)}${book.until === undefined ? '' : `, ${book.until}`}` : '';
  const again = againFee === undefined || againFee === 0 ? '' : ` Coming again costs ${moneyInWords(againFee)}.`;
  return [
    {
      say: `They come on ${weekdayWords(soonest)} at the earliest${call}.`,
      why: `${officeTitle(at, errand.office)} wants it booked ${spanInWords(book.ahead)} ahead.${again}`,
      remedy: 'Call once the work is ready to be looked at, and not before.',
    },
  ];
}

/** What to beware of, and whether they are open. */
function cautions(at: Standpoint, one: ErrandCase, { state }: Examined): readonly Finding[] {
  const { errand } = one;
  const shut = {
    say: `${weekdayWords(at.day)} is no working day.`,
    why: `${officeTitle(at, errand.office)} may be shut.`,
    remedy: 'Ask for their hours before you drive.',
  };
  const own = (say: string) => ({
    say,
    why: `It goes with "${errand.title}".`,
    remedy: 'Your county and licensed people decide.',
  });
  const told = [
    // What lies with them is booked already, or looked at without anybody's call.
    ...(state === 'left with them'
      ? []
      : booking(at, one).map((each) => ({ ...each, basis: wordFor(errand, 'book') }))),
    ...(isOpenDay(at.day, at.rules.calendar) ? [] : [{ ...shut, basis: errand.basis }]),
    ...(errand.caution === undefined ? [] : [{ ...own(errand.caution), basis: wordFor(errand, 'caution') }]),
  ];
  return told.map(({ basis, ...each }) => note(one, { sort: 'caution', basis }, each));
}

/** The errand itself may not be one for this lot: an answer is missing. */
function mayNotApply(at: Standpoint, one: ErrandCase): readonly Finding[] {
  if (errandApplies(at, one.errand) !== 'unknown') return [];
  const found = note(
    one,
    { sort: 'may not apply', basis: wordFor(one.errand, 'when') },
    {
      say: `Whether "${one.errand.title}" applies to this lot is not known yet.`,
      why: `It hangs on your answer to ${openQuestions(at, one.errand.when)}.`,
      remedy: 'Answer the question on the lot card, or ask the office.',
    },
  );
  return [{ ...found, weight: 'ask first' }];
}

/** Duties on papers this errand takes along: told here too, but it is not this office that would refuse. */
function dutyFindings(at: Standpoint, one: ErrandCase, examined: Examined): readonly Finding[] {
  const kinds = new Set(examined.needs.filter((draft) => draft.entry !== undefined).map((draft) => draft.reading.kind));
  return dutiesAt(at)
    .filter((duty) => kinds.has(duty.kind))
    .flatMap((duty) => duty.findings)
    .map((found) => ({ ...found, errand: one.errand.id, weight: lighter(found.weight, 'questioned') }));
}

/** A need of each firm, where no firm is noted: nobody is asked for, and that may be an oversight. */
function nobodyNoted(at: Standpoint, one: ErrandCase): readonly Finding[] {
  // The first need that asks for them says on whose word.
  const sorts = new Map(
    one.errand.needs
      .flatMap(({ each, basis }) => (each !== undefined && each !== one.errand.each ? [[each, basis] as const] : []))
      .toReversed(),
  );
  return [...sorts]
    .filter(([sort]) => (at.index.subjectsOf.get(sort) ?? []).length === 0)
    .map(([sort, basis]) =>
      note(
        one,
        { sort: 'may not apply', basis },
        {
          say: `No ${sort} is noted for this lot.`,
          why: 'Papers are asked for each of them.',
          remedy: `Note every ${sort}, or carry on where there is none.`,
        },
      ),
    );
}

/** The result of an inspection is in hand, and from it nobody can tell that the work passed. */
function resultUntold(at: Standpoint, one: ErrandCase): readonly Finding[] {
  const kept = unsettledResult(at, one);
  if (kept === undefined) return [];
  const { kind, entry, verdict } = kept;
  const title = paperTitle(at, kind, one.subject);
  const fact = factOf(at, entry, 'result');
  const word = fact?.sort === 'text' ? `says "${fact.value}"` : 'is kept, and what they decided is not entered';
  const found = note(
    one,
    { sort: 'errand not settled' },
    {
      say: `${title} of ${dayWords(entry.dated)} ${word}: by itself it settles nothing.`,
      why: `"${one.errand.title}" is settled by their passing it, and a report may also tell that it failed.`,
      remedy:
        verdict === 'not passed'
          ? 'Have it put right and looked at again, and record that visit with its outcome.'
          : sayDecision(at, kind),
    },
  );
  return [{ ...found, weight: 'ask first', kind, paper: entry.paper.id, edition: entry.edition.id }];
}

/** The first day the errand can be gone on, where that is later than the day asked about. */
function firstDay(at: Standpoint, one: ErrandCase): Day | undefined {
  const earliest = datedGraphAt(at).dates.get(caseKey(one))?.earliest;
  return earliest !== undefined && earliest > at.day ? earliest : undefined;
}

/** Since when it lies with them, where it does, and when they were to answer. */
function withThem(at: Standpoint, one: ErrandCase, { state }: Examined): WithThem | undefined {
  const since = state === 'left with them' ? latestVisit(at, one)?.day : undefined;
  if (since === undefined) return undefined;
  const node = datedGraphAt(at).graph.byKey.get(caseKey(one));
  return { since, due: node === undefined ? undefined : dueBack(at, node) };
}

/** How it came back, where it did. */
function cameBack(at: Standpoint, one: ErrandCase, { state }: Examined): CameBack | undefined {
  const visit = state === 'sent back' ? latestVisit(at, one) : undefined;
  return visit === undefined ? undefined : broughtBack(visit);
}

/** A margin reckoned from a day nobody can go on is told for the first day they can as well. */
function onFirstDay(
  at: Standpoint,
  { one, draft, problem }: { readonly one: ErrandCase; readonly draft: NeedDraft; readonly problem: Problem },
): Problem {
  const { goodFor } = draft.need;
  const first = problem.sort === 'lapsing' && goodFor !== undefined ? firstDay(at, one) : undefined;
  if (first === undefined || goodFor === undefined) return problem;
  const until = plusSpan(first, goodFor, at.rules.calendar);
  return {
    ...problem,
    say: `${problem.say} Gone on ${weekdayWords(first)}, the first day you can: until ${dayWords(until)}.`,
  };
}

/** An errand to be settled for a paper that is missing anyway, or the lapse of a paper told more heavily. */
function saidBy(told: Finding, other: Finding): boolean {
  if (told.final || told.remedy.say !== other.remedy.say) return false;
  if (told.sort === 'errand not settled') return other.sort === 'missing' && other.weight === told.weight;
  // That it has to stay alive says nothing more of a paper that has lapsed.
  if (told.sort === 'duty at risk' && other.sort === 'lapsed' && byWeight(other, told) <= 0) {
    return other.kind === told.kind && other.subject === told.subject;
  }
  // A gap in cover names no paper of its own; another paper's trouble says nothing of this one.
  const about = other.kind === undefined || (other.kind === told.kind && other.subject === told.subject);
  return about && told.sort === 'lapsing' && told.weight === 'good to know' && other.weight !== told.weight;
}

/** What is only to be ticked, entered or brought in another form; what is missing or contradicted comes before it. */
const ofThePaper: ReadonlySet<FindingSort> = new Set<FindingSort>([
  'mark missing',
  'fact missing',
  'date unknown',
  'seal missing',
  'sheet size',
  'physical only',
]);

function heaviestFirst(a: Finding, b: Finding): number {
  return byWeight(a, b) || Number(ofThePaper.has(a.sort)) - Number(ofThePaper.has(b.sort));
}

/** @param findings heaviest first */
function saidOnce(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter((told) => !findings.some((other) => other !== told && saidBy(told, other)));
}

function readCase(at: Standpoint, one: ErrandCase): ErrandReading {
  const examined = examine(at, one);
  const about = { errand: one.errand.id, subject: one.subject, day: at.day, state: examined.state };
  if (examined.state === "doesn't apply") return { ...about, needs: [], findings: [] };
  const tell = (problem: Problem): Finding => findingOf(at, asFarAsKnown(examined.applies, problem));
  const needs: NeedReading[] = examined.needs.map((draft) => ({
    ...draft.reading,
    riders: draft.entry === undefined ? [] : ridersAt(at, draft.entry).map((rider) => rider.edition.id),
    findings: draft.problems.map((problem) => tell(onFirstDay(at, { one, draft, problem }))).toSorted(byWeight),
  }));
  const findings = [
    ...needs.flatMap((need) => need.findings),
    ...[...examined.ahead, ...examined.agreements].map(tell),
    ...mayNotApply(at, one),
    ...resultUntold(at, one),
    ...dutyFindings(at, one, examined),
    ...nobodyNoted(at, one),
    ...cautions(at, one, examined),
    ...thingsToBring(at, one),
  ];
  // Nobody goes again on what is settled.
  const days =
    examined.state === 'settled'
      ? {}
      : {
          firstDay: firstDay(at, one),
          withThem: withThem(at, one, examined),
          cameBack: cameBack(at, one, examined),
        };
  return { ...about, needs, ...days, findings: saidOnce(findings.toSorted(heaviestFirst)) };
}

/**
 * What an office will say to this errand on this day, for one subject where the errand is run per subject.
 * @throws LotfileError 'not found' for an errand the practice doesn't know.
 */
export function readErrand(
  errand: ErrandId,
  asked: Asked & { readonly subject?: SubjectId | undefined },
): ErrandReading {
  const at = indexLot(asked);
  return readCase(at, { errand: errandOf(at, errand), subject: asked.subject });
}

/** The same for every subject the errand is run for; one reading where it is run once. */
export function readErrands(errand: ErrandId, asked: Asked): readonly ErrandReading[] {
  const at = indexLot(asked);
  return casesOf(at, errandOf(at, errand)).map((one) => readCase(at, one));
}

/** Just the state of an errand. */
export function errandState(
  errand: ErrandId,
  asked: Asked & { readonly subject?: SubjectId | undefined },
): ErrandState {
  const at = indexLot(asked);
  return examine(at, { errand: errandOf(at, errand), subject: asked.subject }).state;
}
