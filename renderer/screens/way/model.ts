import type { PaperRow, WayAnswer } from '../../../core/desk/contract/answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import type { ErrandState, PaperState } from '../../../core/vocabulary/finding.ts';
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
  /** False where it is settled and nothing says when: it stands with the one before it. */
  readonly dated: boolean;
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
  readonly kind: string;
  readonly state: PaperState;
  /** Expected where it isn't there yet. */
  readonly from: Day | undefined;
  readonly expected: boolean;
  /** Undefined: with no end, or not known yet. */
  readonly through: Day | undefined;
  /** The errand that needs it only after it will have lapsed. */
  readonly lapsesBefore: Station | undefined;
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
}

export interface WaySources {
  readonly way: WayAnswer;
  readonly papers: readonly PaperRow[];
  readonly practice: Practice | undefined;
  readonly target: Day | undefined;
}

export function keyOf({ errand, subject }: { readonly errand: string; readonly subject?: string | undefined }): string {
  return subject === undefined ? errand : `${errand}:${subject}`;
}

/** The newest day on a paper a settled errand brought: the nearest thing to the day it was settled. */
function settledOn(row: WayRow, { way, papers, practice }: WaySources): Day | undefined {
  const yields = practice?.errands[row.errand]?.yields ?? [];
  return papers
    .filter(({ kind, subject }) => yields.includes(kind) && (row.subject === undefined || subject === row.subject))
    .flatMap(({ issuedDay }) => (issuedDay === undefined || issuedDay > way.day ? [] : [issuedDay]))
    .toSorted()
    .at(-1);
}

function stationsOf(sources: WaySources): readonly Station[] {
  const { way, practice } = sources;
  const rows = way.stops.filter(({ state }) => state !== "doesn't apply");
  let before: Day | undefined;
  const placed = rows.map((row) => {
    const known = row.earliest ?? settledOn(row, sources);
    const at = known ?? before ?? way.day;
    before = at;
    return { row, at, dated: known !== undefined };
  });
  const ordered = placed.toSorted((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  return ordered.map(({ row, at, dated }, index) => ({
    key: keyOf(row),
    number: index + 1,
    row,
    title: row.title,
    state: row.state,
    at,
    dated,
    stretch: practice?.errands[row.errand]?.stretch ?? '',
    waitsFor: ordered.filter((other) => row.waitsFor.includes(other.row.errand)).map((other) => keyOf(other.row)),
  }));
}

function gatesOf({ way }: WaySources, stations: readonly Station[]): readonly Gate[] {
  return way.holds.map(({ hold, title, say, waitsFor, unknown }) => {
    const before = stations.filter((station) => waitsFor.includes(station.title));
    const opens = before.map(({ row, at }) => row.done ?? at).toSorted();
    return { key: hold, title, say, waitsFor, unknown, opens: opens.at(-1) };
  });
}

/** With its firm or area, where several papers bear one title. */
function lifeTitle(row: PaperRow, all: readonly PaperRow[]): string {
  const twins = all.filter(({ kind }) => kind === row.kind);
  const number = row.editions.find(({ current }) => current)?.number ?? '';
  return twins.length > 1 && number !== '' && !row.title.includes(number) ? `${row.title} ${number}` : row.title;
}

function lifeOf(row: PaperRow, sources: WaySources, stations: readonly Station[]): Life {
  const { way, papers } = sources;
  const there = row.issuedDay !== undefined && row.issuedDay <= way.day && row.state !== 'not asked for';
  const asking = row.needFor.filter(({ open }) => open).map(({ errand }) => errand);
  const needed = stations.filter((station) => station.state !== 'settled' && asking.includes(station.row.errand));
  const through = there ? row.goodThroughDay : undefined;
  const late = needed.filter(({ row: stop, at }) => {
    return stop.lapsesFirst.includes(row.kind) && through !== undefined && through < at;
  });
  const brought = stations.find(({ row: stop }) => stop.errand === row.broughtBy?.errand);
  return {
    key: row.row,
    title: lifeTitle(row, papers),
    kind: row.kind,
    state: row.state,
    from: there ? row.issuedDay : (brought?.row.done ?? brought?.at),
    expected: !there,
    through,
    lapsesBefore: late[0],
    needed,
    link: row.paper,
  };
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
    lives,
  };
}

/** What is written on a strip. */
export function lifeInWords({ title, expected, through, from, lapsesBefore }: Life): string {
  if (lapsesBefore !== undefined && through !== undefined)
    return `${title}: lapses ${dayInWords(through)}, before ${lapsesBefore.number} can use it`;
  if (through !== undefined) return `${title}, to ${dayInWords(through)}`;
  if (expected) return from === undefined ? `${title}, nobody asked yet` : `${title}, about ${dayInWords(from)}`;
  return title;
}
