import type { PaperRow, WayAnswer } from '../../../core/desk/contract/answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import type { ErrandState, PaperState } from '../../../core/vocabulary/finding.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';

export type WayRow = WayAnswer['stops'][number];

/** An errand as it stands on the way; the numbers run in the order of their days. */
export interface Station {
  readonly key: string;
  readonly number: number;
  readonly row: WayRow;
  readonly title: string;
  readonly state: ErrandState;
  /** Where it stands on the sheet. */
  readonly at: Day;
  /** On whose word: a visit or the way itself; a paper it brought; or nothing, and it stands with the one before it. */
  readonly dated: 'surely' | 'by its paper' | 'not';
  readonly stretch: string;
  /** Keys of the stations it waits for. */
  readonly waitsFor: readonly string[];
}

/** Something that may not be done before its errands are settled. */
export interface Gate {
  readonly key: string;
  readonly title: string;
  readonly say: string;
  /** When what it waits for should be settled; undefined where nobody knows. */
  readonly opens: Day | undefined;
  readonly waitsFor: readonly string[];
  readonly unknown: boolean;
}

/** The life of a paper: from its issue to its last good day. */
export interface Life {
  readonly key: string;
  readonly title: string;
  /** The firm, area or draw it is kept for. */
  readonly subject: string | undefined;
  readonly kind: string;
  readonly state: PaperState;
  /** Expected where it isn't there yet. */
  readonly from: Day | undefined;
  readonly expected: boolean;
  /** Undefined: with no end, or not known yet. */
  readonly through: Day | undefined;
  /** Last good days of all of them, where several of a kind share the strip. */
  readonly ends: readonly Day[];
  /** Stations that need it only after it will have lapsed. */
  readonly lateFor: readonly Station[];
  /** Stations that still ask for it. */
  readonly needed: readonly Station[];
  readonly link: string | undefined;
}

export interface WayModel {
  readonly today: Day;
  readonly finish: Day | undefined;
  readonly target: Day | undefined;
  readonly stations: readonly Station[];
  readonly aside: readonly WayRow[];
  readonly gates: readonly Gate[];
  readonly lives: readonly Life[];
  /** The stretches of the way, in the order they are walked. */
  readonly stretches: readonly string[];
}

export interface WaySources {
  readonly way: WayAnswer;
  readonly papers: readonly PaperRow[];
  readonly practice: Practice | undefined;
  readonly subjects: readonly Subject[];
  readonly target: Day | undefined;
}

export function keyOf({ errand, subject }: { readonly errand: string; readonly subject?: string | undefined }): string {
  return subject === undefined ? errand : `${errand}:${subject}`;
}

/** The newest day on a paper a settled errand brought: the nearest thing to the day it was settled. */
function settledOn(row: WayRow, { way, papers, practice, subjects }: WaySources): Day | undefined {
  const yields = practice?.errands[row.errand]?.yields ?? [];
  // Papers name what they are kept for by its title.
  const title = subjects.find(({ id }) => id === row.subject)?.title;
  return papers
    .filter(({ kind, subject }) => yields.includes(kind) && (row.subject === undefined || subject === title))
    .flatMap(({ issuedDay }) => (issuedDay === undefined || issuedDay > way.day ? [] : [issuedDay]))
    .toSorted(byDay)
    .at(-1);
}

function datedBy(row: WayRow, known: Day | undefined): Station['dated'] {
  if (known === undefined) return 'not';
  return (row.earliest ?? row.settled) === undefined ? 'by its paper' : 'surely';
}

function stationsOf(sources: WaySources): readonly Station[] {
  const { way } = sources;
  const rows = way.stops.filter(({ state }) => state !== "doesn't apply");
  let before: Day | undefined;
  const placed = rows.map((row) => {
    const known = row.earliest ?? row.settled ?? settledOn(row, sources);
    const at = known ?? before ?? way.day;
    before = at;
    return { row, at, dated: datedBy(row, known) };
  });
  const ordered = placed.toSorted((a, b) => byDay(a.at, b.at));
  return ordered.map(({ row, at, dated }, index) => ({
    key: keyOf(row),
    number: index + 1,
    row,
    title: row.title,
    state: row.state,
    at,
    dated,
    stretch: row.stretch ?? '',
    waitsFor: ordered.filter((other) => row.waitsFor.includes(other.row.errand)).map((other) => keyOf(other.row)),
  }));
}

function gatesOf({ way }: WaySources, stations: readonly Station[]): readonly Gate[] {
  return way.holds.map(({ hold, title, say, waitsFor, unknown }) => {
    const before = stations.filter((station) => waitsFor.includes(station.title));
    const opens = before.map(({ row, at }) => row.done ?? at).toSorted(byDay);
    return { key: hold, title, say, waitsFor, unknown, opens: opens.at(-1) };
  });
}

function lifeOf(row: PaperRow, sources: WaySources, stations: readonly Station[]): Life {
  const { way } = sources;
  const there = row.issuedDay !== undefined && row.issuedDay <= way.day && row.state !== 'not asked for';
  const asking = row.needFor.filter(({ open }) => open).map(({ errand }) => errand);
  const needed = stations.filter((station) => station.state !== 'settled' && asking.includes(station.row.errand));
  const through = there ? row.goodThroughDay : undefined;
  const late = needed.filter(
    ({ row: stop, at }) =>
      through !== undefined && through < at && (row.state === 'lapsed' || stop.lapsesFirst.includes(row.kind)),
  );
  const brought = stations.find(({ row: stop }) => stop.errand === row.broughtBy?.errand);
  return {
    key: row.row,
    title: row.title,
    subject: row.subject,
    kind: row.kind,
    state: row.state,
    from: there ? row.issuedDay : (brought?.row.done ?? brought?.at),
    expected: !there,
    through,
    ends: through === undefined ? [] : [through],
    lateFor: late,
    needed,
    link: row.paper,
  };
}

/** Papers of one kind kept for several firms or areas share a strip, unless one of them lapses too early. */
function folded(lives: readonly Life[]): readonly Life[] {
  const plain = (life: Life): boolean => !life.expected && life.through !== undefined && life.lateFor.length === 0;
  return lives.flatMap((life) => {
    const twins = lives.filter((other) => other.kind === life.kind && plain(other));
    if (!plain(life) || twins.length < 2) return [life];
    if (twins[0] !== life) return [];
    const ends = twins.flatMap((twin) => twin.ends).toSorted(byDay);
    const from = twins.flatMap((twin) => twin.from ?? []).toSorted(byDay);
    const lapsing = twins.find(({ state }) => state === 'lapsing' || state === 'lapsed');
    return [
      {
        ...life,
        ends,
        from: from[0],
        through: ends.at(-1),
        state: lapsing?.state ?? life.state,
        link: undefined,
        subject: undefined,
      },
    ];
  });
}

function byDay(a: Day, b: Day): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Stretches by where their errands stand on the average: one early errand does not move a stretch. */
function stretchesOf(stations: readonly Station[]): readonly string[] {
  const places = Map.groupBy(stations, ({ stretch }) => stretch);
  const middle = (members: readonly Station[]): number =>
    members.reduce((sum, { number }) => sum + number, 0) / members.length;
  return [...places].toSorted(([, a], [, b]) => middle(a) - middle(b)).map(([stretch]) => stretch);
}

/** Everything the sheet and the list show, out of what the desk answered. */
export function modelOf(sources: WaySources): WayModel {
  const { way, papers, target } = sources;
  const stations = stationsOf(sources);
  const lives = papers
    .filter(({ state, kind }) => state !== "doesn't apply" && state !== 'replaced' && kind !== 'other')
    .map((row) => lifeOf(row, sources, stations));
  return {
    today: way.day,
    finish: way.finish,
    target,
    stations,
    aside: way.stops.filter(({ state }) => state === "doesn't apply"),
    gates: gatesOf(sources, stations),
    lives: folded(lives),
    stretches: stretchesOf(stations),
  };
}

/** "Certificate of liability insurance, Tern Electric". */
function titleOf({ title, subject }: Life): string {
  return subject === undefined ? title : `${title}, ${subject}`;
}

/** "Septic permit lapses 27 Jul 2026, before 21 can use it", "... lapsed 27 Jul 2026, and 21 needs it". */
export function lateInWords(life: Life): string {
  const { through, lateFor, state } = life;
  const [first] = lateFor;
  if (through === undefined || first === undefined) return '';
  const day = dayInWords(through);
  return state === 'lapsed'
    ? `${titleOf(life)} lapsed ${day}, and ${first.number} needs it`
    : `${titleOf(life)} lapses ${day}, before ${first.number} can use it`;
}

/** What is written on a strip. */
export function lifeInWords(life: Life): string {
  const { expected, through, from, lateFor, state, ends } = life;
  if (lateFor.length > 0) return lateInWords(life);
  const title = titleOf(life);
  const [first] = ends;
  if (ends.length > 1 && first !== undefined) return `${title}: ${ends.length}, the first to ${dayInWords(first)}`;
  if (through !== undefined) return `${title}, ${state === 'lapsed' ? 'lapsed' : 'to'} ${dayInWords(through)}`;
  if (expected) return from === undefined ? `${title}, nobody asked yet` : `${title}, about ${dayInWords(from)}`;
  return title;
}
