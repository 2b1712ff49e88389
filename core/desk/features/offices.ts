import { type Asked, indexLot, paperStateOf, readWay } from '../../readiness/index.ts';
import type { Handover } from '../../store/index.ts';
import { addDays, dayInWords, daysBetween } from '../../vocabulary/days.ts';
import type { WayStop } from '../../vocabulary/finding.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import type {
  AwaitedRow,
  BackRow,
  HandedRow,
  OfficeRow,
  OfficesAnswer,
  RunningClock,
} from '../contract/screen-answers.ts';
import { entryIn, kindTitle } from '../named.ts';
import { askedOf, errandTitle, officeCard, subjectTitle, titleFor } from './asked.ts';
import { changedPapers, newerThan, unseenBy } from './changed.ts';
import { goneOut } from './packet-files.ts';
import { backRow, waitingRow } from './with-them.ts';

/** With the offices: who holds what, and what we wait for. */

/** Comments left lying let an application lapse; common practice takes 180 days where an office says nothing else. */
const commentDays = 180;

function handedRow(handover: Handover, asked: Asked, at: AtLot): HandedRow {
  const { id, packet, recipient, day, how, receipt, note, editions } = handover;
  const files = packet === undefined ? handover.files : goneOut(packet, handover.files, at);
  return {
    handover: id,
    packet,
    title: packet === undefined ? '' : at.lot.packet(packet).title,
    to: recipient,
    day,
    how,
    receipt: receipt ?? '',
    note: note ?? '',
    files: files.map(({ name, bytes, sha256 }) => ({ name, bytes, sha256: sha256.slice(0, 12) })),
    editions: editions.flatMap(({ edition, copies, surrendered }) => {
      const entry = entryIn(asked.lot, edition);
      if (entry === undefined) return [];
      const { paper } = entry;
      const title = titleFor(paper.title, subjectTitle(asked.lot, paper.subject));
      const number = entry.edition.number ?? '';
      return [
        { edition, paper: paper.id, title, number, copies, surrendered, old: newerThan(entry, asked) !== undefined },
      ];
    }),
  };
}

/** The office a handover went to: as noted, by its packet's errand, or by the name it was given. */
function officeOf({ office, packet, recipient }: Handover, asked: Asked, at: AtLot): string | undefined {
  if (office !== undefined) return office;
  const errand = packet === undefined ? undefined : at.lot.packet(packet).errand;
  const byErrand = errand === undefined ? undefined : asked.practice.errands[errand]?.office;
  if (byErrand !== undefined) return byErrand;
  const said = recipient.toLowerCase();
  return Object.values(asked.practice.offices).find(({ title }) => title.toLowerCase() === said)?.id;
}

/** What an errand that lies with them will bring and that isn't in hand. */
function awaitedRows(stop: WayStop, asked: Asked): readonly AwaitedRow[] {
  const row = waitingRow(stop, asked);
  const index = indexLot(asked);
  if (row === undefined) return [];
  return (asked.practice.errands[stop.errand]?.yields ?? []).flatMap((kind) => {
    const state = paperStateOf(index, { kind, subject: stop.subject });
    if (state === 'in hand' || state === 'lapsing' || state === "doesn't apply") return [];
    const { since, expected, subjectTitle: subject } = row;
    const title = titleFor(kindTitle(asked.practice, kind), subject);
    return [
      { kind, title, errand: stop.errand, errandTitle: errandTitle(asked.practice, stop.errand), since, expected },
    ];
  });
}

function clockOf({ title, since, cameBack, comments }: BackRow, asked: Asked): readonly RunningClock[] {
  const open = comments.filter(({ answered }) => answered === undefined);
  if (open.length === 0) return [];
  const count = open.length === 1 ? '1 comment waits' : `${open.length} comments wait`;
  const due = open.flatMap((comment) => comment.due ?? []).toSorted()[0];
  if (due !== undefined) {
    const words = `${title}: ${count} for your answer; they want it by ${dayInWords(due)}.`;
    return [{ say: words, through: due, days: daysBetween(asked.day, due) }];
  }
  // What they never took doesn't lie with them, and no application of theirs can lapse.
  if (cameBack === 'turned away') return [];
  const through = addDays(since, commentDays);
  const say =
    `${title}: ${count} for your answer since ${dayInWords(since)}. Many offices let an application lapse after ` +
    `${commentDays} days (common practice; ask them): that is after ${dayInWords(through)}.`;
  return [{ say, through, days: daysBetween(asked.day, through) }];
}

interface Office {
  readonly asked: Asked;
  readonly at: AtLot;
  readonly given: readonly Handover[];
}

function officeRow(id: string, { asked, at, given }: Office): OfficeRow {
  const handed = given.map((handover) => handedRow(handover, asked, at));
  const stops = readWay(asked).stops.filter(({ errand }) => asked.practice.errands[errand]?.office === id);
  const left = stops.filter(({ state }) => state === 'left with them');
  const back = stops.filter(({ state }) => state === 'sent back').flatMap((stop) => backRow(stop, asked, at.lot) ?? []);
  return {
    office: officeCard(asked.practice, id),
    waiting: left.flatMap((stop) => waitingRow(stop, asked) ?? []),
    back,
    handed,
    awaited: left.flatMap((stop) => awaitedRows(stop, asked)),
    clocks: back.flatMap((row) => clockOf(row, asked)),
    unseen: unseenBy(id, given, asked),
  };
}

export const withOffices = onLot(requests['with-offices'], (_input, at): OfficesAnswer => {
  const asked = askedOf(at);
  const given = at.lot.handovers().filter(({ withdrawn, day }) => withdrawn === undefined && day <= asked.day);
  const byOffice = Map.groupBy(given, (handover) => officeOf(handover, asked, at) ?? '');
  const offices = Object.keys(asked.practice.offices)
    .map((id) => officeRow(id, { asked, at, given: byOffice.get(id) ?? [] }))
    .filter(({ waiting, back, handed }) => waiting.length + back.length + handed.length > 0);
  const others = (byOffice.get('') ?? []).map((handover) => handedRow(handover, asked, at));
  return { changed: changedPapers(given, asked), offices, others };
});
