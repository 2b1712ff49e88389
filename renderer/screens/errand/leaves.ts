import type { PlanAnswer } from '../../../core/desk/contract/answers.ts';
import type { PlanFile, PlanSheet, PlanStamp, PlanTab } from '../../../core/packet/plan-model.ts';
import type { Drawing } from '../../../core/typeset/drawing.ts';
import type { NeedRow } from './errand-model.ts';

/** What a leaf of the stack shows. */
export type LeafView =
  | { readonly of: 'written'; readonly drawing: Drawing }
  | {
      readonly of: 'page';
      readonly ticket: string;
      readonly page: number;
      readonly width: number;
      readonly height: number;
      readonly turn: 0 | 90 | 180 | 270;
      readonly stamp?: PlanStamp | undefined;
    }
  /** A file that travels untouched: its pages are asked for when they come into view. */
  | { readonly of: 'apart'; readonly edition: string | undefined; readonly page: number; readonly bytes: number }
  /** A page of a finished file. */
  | { readonly of: 'finished'; readonly ticket: string; readonly page: number };

/** One sheet of the stack, in reading order over all files of the packet. */
export interface Leaf {
  readonly key: string;
  /** Index of its file in the plan. */
  readonly file: number;
  /** 1-based in its file. */
  readonly n: number;
  readonly of: number;
  readonly tab?: number | undefined;
  readonly title: string;
  readonly view: LeafView;
}

function viewOf(sheet: PlanSheet, tickets: PlanAnswer['tickets']): LeafView {
  if (sheet.of === 'written') return { of: 'written', drawing: sheet.drawing };
  const { rendition, facts, turn } = sheet.page;
  const stamp = 'none' in sheet.stamp ? undefined : sheet.stamp;
  const { page, width, height } = facts;
  return { of: 'page', ticket: tickets[rendition] ?? '', page, width, height, turn, stamp };
}

function leavesOfFile(file: PlanFile, at: number, plan: PlanAnswer): readonly Leaf[] {
  if (file.of === 'assembled') {
    return file.sheets.map((sheet, index) => ({
      key: `${at} ${index}`,
      file: at,
      n: index + 1,
      of: file.sheets.length,
      tab: sheet.tab,
      title: sheet.title,
      view: viewOf(sheet, plan.tickets),
    }));
  }
  const tab = plan.tabs.find((one) => one.tab === file.tab);
  const pages = Math.max(1, tab?.pages ?? 1);
  return Array.from({ length: pages }, (_, page) => ({
    key: `${at} ${page}`,
    file: at,
    n: page + 1,
    of: pages,
    tab: file.tab,
    title: file.title,
    view: { of: 'apart', edition: tab?.edition, page, bytes: file.file.bytes },
  }));
}

/** Every sheet of a plan, in the order of its files. */
export function leavesOf(plan: PlanAnswer): readonly Leaf[] {
  return plan.files.flatMap((file, at) => leavesOfFile(file, at, plan));
}

export function leavesOfFinished(file: { readonly ticket: string; readonly pages: number }): readonly Leaf[] {
  return Array.from({ length: file.pages }, (_, page) => ({
    key: `${file.ticket} ${page}`,
    file: 0,
    n: page + 1,
    of: file.pages,
    title: `Page ${page + 1}`,
    view: { of: 'finished', ticket: file.ticket, page },
  }));
}

/** Width by height of a leaf as seen; a letter sheet where that isn't known yet. */
export function aspectOf({ view }: Leaf): number {
  switch (view.of) {
    case 'written':
      return view.drawing.width / view.drawing.height;
    case 'page':
      return view.turn === 90 || view.turn === 270 ? view.height / view.width : view.width / view.height;
    case 'apart':
    case 'finished':
      return 8.5 / 11;
  }
}

const firsts = new WeakMap<readonly Leaf[], ReadonlyMap<number, number>>();

function firstsIn(leaves: readonly Leaf[]): ReadonlyMap<number, number> {
  const found = new Map<number, number>();
  const rank = (of: LeafView['of'] | undefined): number => (of === 'page' ? 2 : of === 'apart' ? 1 : 0);
  for (const [at, { tab, view }] of leaves.entries()) {
    if (tab === undefined) continue;
    const before = found.get(tab);
    if (before === undefined || rank(view.of) > rank(leaves[before]?.view.of)) found.set(tab, at);
  }
  return found;
}

/** Where the stack opens for a tab: at the paper itself, else at what holds its place; -1 where it has no sheet. */
export function firstOfTab(leaves: readonly Leaf[], tab: number): number {
  const known = firsts.get(leaves) ?? firstsIn(leaves);
  firsts.set(leaves, known);
  return known.get(tab) ?? -1;
}

/** Each need with the tab it got, in so far as it got one. */
export function tabsByNeed(needs: readonly NeedRow[], tabs: readonly PlanTab[]): ReadonlyMap<NeedRow, PlanTab> {
  const free = new Set(tabs);
  const found = new Map<NeedRow, PlanTab>();
  const take = (fits: (need: NeedRow, tab: PlanTab) => boolean): void => {
    for (const need of needs) {
      if (found.has(need)) continue;
      const tab = [...free].find((one) => one.need === need.need && fits(need, one));
      if (tab === undefined) continue;
      found.set(need, tab);
      free.delete(tab);
    }
  };
  take((need, tab) => need.edition !== undefined && need.edition === tab.edition);
  take((need, tab) => need.paper !== undefined && need.paper === tab.paper);
  take((need, tab) => tab.title.startsWith(need.title));
  take((_need, tab) => tab.edition === undefined);
  return found;
}

/** "Packet", "For the print shop", "Untouched": what a file of the plan is. */
export function fileSortInWords(file: Pick<PlanFile, 'of' | 'sort'>): string {
  switch (file.sort) {
    case 'packet':
      return 'Packet';
    case 'paper':
      return 'A paper by itself';
    case 'print shop':
      return 'For the print shop';
    case 'errand sheet':
      return 'Your own errand sheet';
    case 'sealed':
      return 'Untouched, as sealed';
    case 'upload':
      return 'Untouched, as it came';
  }
}

export function bytesInWords(bytes: number): string {
  if (bytes < 1_000_000) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  return `${(bytes / 1_000_000).toFixed(bytes < 10_000_000 ? 1 : 0)} MB`;
}

/** Bytes of a file: as it stands for an untouched one, an estimate for one still to be written. */
export function bytesOf(file: PlanFile): number {
  return file.of === 'assembled' ? file.estimatedBytes : file.file.bytes;
}
