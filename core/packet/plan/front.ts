import type { Drawing } from '../../typeset/drawing.ts';
import { type CoverSheet, coverSheet } from '../../typeset/sheets/cover.ts';
import { type IndexRow, indexSheets } from '../../typeset/sheets/index-sheet.ts';
import { wording } from '../../typeset/wording.ts';
import { dayInWords } from '../../vocabulary/days.ts';
import type { BodyTab } from './body.ts';
import type { PlanFrame } from './frame.ts';
import { ownersOn, parcelOn, placeOn } from './identity.ts';
import { type BesideFile, shortHash } from './leaves.ts';
import type { Row } from './row.ts';
import { stateOf, stateWords } from './states.ts';

/** Which volume of how many, and what the whole packet holds. */
export interface FrontOrder {
  readonly volume: number;
  readonly volumes: readonly (readonly BodyTab[])[];
  readonly total: number;
  readonly beside: ReadonlyMap<number, readonly BesideFile[]>;
  /** Where each paper goes as a file of its own: its name, by tab. */
  readonly separate?: ReadonlyMap<number, string> | undefined;
  /** Where the first sheet after the front stands in this file, once the front's length is known. */
  readonly front: number;
}

export function roman(n: number): string {
  const steps = [
    ['x', 10],
    ['ix', 9],
    ['v', 5],
    ['iv', 4],
    ['i', 1],
  ] as const;
  let rest = n;
  let text = '';
  for (const [sign, value] of steps) {
    while (rest >= value) {
      text += sign;
      rest -= value;
    }
  }
  return text;
}

/** "4" or "4–12": the numbers of a tab's sheets in the packet. */
export function sheetRange(tab: BodyTab): string {
  const first = tab.sheets[0];
  const last = tab.sheets.at(-1);
  if (first === undefined || last === undefined) return '';
  return first.n === last.n ? String(first.n) : `${first.n}–${last.n}`;
}

/** The index of the whole packet; rows of this volume lead to their first sheet. */
export function drawIndex(frame: PlanFrame, order: FrontOrder, firstPage: number): readonly Drawing[] {
  const rows = order.volumes.flatMap((tabs, at) => {
    let sheet = order.front;
    return tabs.map((tab): IndexRow => {
      const here = at === order.volume - 1 && tab.sheets.length > 0;
      const row = indexRow(tab, order, { volume: at + 1, toSheet: here ? sheet : undefined });
      sheet += tab.sheets.length;
      return row;
    });
  });
  const marks = [...new Set(rows.map((row) => row.mark))];
  const index = {
    title: frame.title,
    lot: frame.order.lot.title,
    rows,
    legend: marks.map((mark) => ({ mark, word: stateWords[mark] ?? mark })),
    margin: (at: number) => ({
      code: frame.code,
      position: roman(firstPage + at),
      tabs: frame.rows.length,
      draft: frame.draft,
    }),
  };
  return indexSheets(index, frame.metrics, frame.replaced);
}

function indexRow(
  tab: BodyTab,
  order: FrontOrder,
  at: { readonly volume: number; readonly toSheet: number | undefined },
): IndexRow {
  const { row } = tab;
  const state = stateOf(
    row,
    (order.beside.get(row.tab.tab) ?? []).map(({ name }) => name),
  );
  const elsewhere = at.volume !== order.volume && tab.sheets.length > 0 ? `volume ${at.volume}` : undefined;
  const file = order.separate?.get(row.tab.tab);
  const says = [file, state.say, elsewhere].filter((say) => say !== undefined);
  return {
    tab: String(row.tab.tab),
    mark: state.mark,
    paper: row.tab.title,
    state: says.length === 0 ? undefined : says.join(' · '),
    issuedBy: row.tab.issuedBy,
    number: row.tab.number,
    dated: row.tab.dated,
    goodThrough: row.tab.goodThrough,
    sheets: sheetRange(tab),
    toSheet: at.toSheet,
  };
}

/** The cover of one volume. */
export function drawCover(frame: PlanFrame, order: FrontOrder, hasIndex: boolean): Drawing {
  const { lot, day } = frame.order;
  const tabs = order.volumes[order.volume - 1] ?? [];
  const several = order.volumes.length > 1;
  const cover: CoverSheet = {
    margin: { code: frame.code, position: 'i', tabs: frame.rows.length, draft: frame.draft },
    title: frame.title,
    recipient: frame.recipient,
    lot: lot.title,
    place: placeOn(lot, day),
    parcel: parcelOn(lot, day),
    owners: ownersOn(lot, day),
    date: dayInWords(day),
    sheets: order.separate === undefined ? String(order.total) : undefined,
    files: order.separate === undefined ? undefined : String(filesIn(order)),
    volume: several ? `${order.volume} of ${order.volumes.length}` : undefined,
    count: countOf(tabs, order),
    holds: holdsOf(tabs.map(({ row }) => row)),
    lists: listsOf(frame, order),
    toIndex: hasIndex ? 1 : undefined,
  };
  return coverSheet(cover, frame.metrics, frame.replaced);
}

function filesIn(order: FrontOrder): number {
  const untouched = [...order.beside.values()].reduce((sum, files) => sum + files.length, 0);
  return (order.separate?.size ?? 0) + untouched;
}

function countOf(tabs: readonly BodyTab[], order: FrontOrder): string {
  const papers = tabs.filter(({ row }) => row.edition !== undefined && row.tab.seeTab === undefined).length;
  const sheets = tabs.reduce((sum, tab) => sum + tab.sheets.length, 0);
  if (order.separate !== undefined) {
    const files = filesIn(order);
    return `${papers} ${papers === 1 ? 'paper' : 'papers'} in ${files} ${files === 1 ? 'file' : 'files'}`;
  }
  const whole = order.volumes.length > 1 ? ` of ${order.total} in all` : '';
  return `${papers} ${papers === 1 ? 'paper' : 'papers'}, ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'}${whole}`;
}

/** Titles gathered by who issued them, in packet order. */
function holdsOf(rows: readonly Row[]): CoverSheet['holds'] {
  const groups = new Map<string, string[]>();
  for (const row of rows) {
    if (row.edition === undefined || row.tab.seeTab !== undefined) continue;
    const from = row.tab.issuedBy === '' ? '—' : row.tab.issuedBy;
    groups.set(from, [...(groups.get(from) ?? []), row.tab.title]);
  }
  return [...groups].map(([from, papers]) => ({ from, papers: counted(papers).join('; ') }));
}

/** "Lien release (4)": a title that comes several times stands once. */
function counted(titles: readonly string[]): readonly string[] {
  const times = Map.groupBy(titles, (title) => title);
  return [...times].map(([title, all]) => (all.length === 1 ? title : `${title} (${all.length})`));
}

function listsOf(frame: PlanFrame, order: FrontOrder): CoverSheet['lists'] {
  const words = wording.cover;
  const of = (place: string): readonly Row[] =>
    frame.rows.filter((row) => row.tab.place === place && row.tab.seeTab === undefined);
  const follow = of('to follow').map((row) => {
    const expected = row.expected === undefined ? '' : `, expected ${row.expected}`;
    return `${row.tab.title} (${row.tab.issuedBy})${expected}`;
  });
  const beside = frame.rows.flatMap((row) =>
    (order.beside.get(row.tab.tab) ?? []).map(
      ({ name, sha256 }) => `tab ${row.tab.tab}: ${name} (SHA-256 ${shortHash(sha256)} …)`,
    ),
  );
  const byHand = of('by hand').map((row) => `tab ${row.tab.tab}: ${row.tab.title}`);
  const other = order.volumes.flatMap((tabs, at) => {
    const first = tabs[0]?.row.tab.tab;
    const last = tabs.at(-1)?.row.tab.tab;
    if (order.volumes.length === 1 || first === undefined || at === order.volume - 1) return [];
    return [`volume ${at + 1}: tabs ${first} to ${last ?? first}`];
  });
  return [
    { title: words.follow, items: follow },
    { title: words.volumes, items: other },
    { title: words.beside, items: beside },
    { title: words.byHand, items: byHand },
  ].filter(({ items }) => items.length > 0);
}
