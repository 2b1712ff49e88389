import type { PlanBookmark, PlanFile, PlanLabel, PlanSheet } from '../plan-model.ts';
import { type BodySheet, type BodyTab, leafBytes } from './body.ts';
import type { PlanFrame } from './frame.ts';
import { drawCover, drawIndex, type FrontOrder, sheetRange } from './front.ts';
import { type BesideFile, drawLeaf } from './leaves.ts';
import { stampFor } from './stamps.ts';
import { fileBytes } from './volumes.ts';

type Assembled = Extract<PlanFile, { of: 'assembled' }>;

export interface PacketFilesOrder {
  readonly volumes: readonly (readonly BodyTab[])[];
  readonly total: number;
  readonly beside: ReadonlyMap<number, readonly BesideFile[]>;
  readonly separate?: ReadonlyMap<number, string> | undefined;
}

/** The assembled packet: one file, or its volumes, each with its own cover. */
export function packetFiles(frame: PlanFrame, order: PacketFilesOrder): readonly Assembled[] {
  return order.volumes.map((tabs, at) => packetFile(frame, { ...order, volume: at + 1, tabs }));
}

interface VolumeOrder extends PacketFilesOrder {
  readonly volume: number;
  readonly tabs: readonly BodyTab[];
}

function packetFile(frame: PlanFrame, order: VolumeOrder): Assembled {
  const several = order.volumes.length > 1;
  const front = frontSheets(frame, order);
  const body = order.tabs.flatMap((tab) => tab.sheets.map((sheet) => bodySheet(frame, order, { tab, sheet })));
  const sheets = [...front, ...body];
  const volume = several ? `-volume-${order.volume}-of-${order.volumes.length}` : '';
  const draft = frame.draft ? '-DRAFT' : '';
  const first = order.tabs.flatMap((tab) => tab.sheets)[0]?.n ?? 1;
  return {
    of: 'assembled',
    sort: 'packet',
    name: frame.names.plain(frame.stem, 'pdf', `${draft}${volume}`),
    title: several
      ? `${frame.title}, volume ${order.volume} of ${order.volumes.length}: ${frame.order.lot.title}`
      : `${frame.title}: ${frame.order.lot.title}`,
    sheets,
    bookmarks: frame.delivery.bookmarks ? bookmarksOf(front, order.tabs) : [],
    labels: labelsOf(front.length, body.length, first),
    estimatedBytes: fileBytes + front.length * leafBytes + order.tabs.reduce((sum, tab) => sum + tab.bytes, 0),
  };
}

/** Cover and index; drawn twice, for links need the length of the front. */
function frontSheets(frame: PlanFrame, order: VolumeOrder): readonly PlanSheet[] {
  const { delivery } = frame;
  const cover = delivery.cover || order.volumes.length > 1;
  const before = cover ? 1 : 0;
  const base: FrontOrder = { ...order, front: 0 };
  const length = before + (delivery.index ? drawIndex(frame, base, before + 1).length : 0);
  const index = delivery.index ? drawIndex(frame, { ...base, front: length }, before + 1) : [];
  return [
    ...(cover
      ? [{ of: 'written', sort: 'cover', title: 'Cover', drawing: drawCover(frame, base, delivery.index) } as const]
      : []),
    ...index.map((drawing, at) => {
      const title = at === 0 ? 'Index' : `Index, sheet ${at + 1}`;
      return { of: 'written', sort: 'index', title, drawing } as const;
    }),
  ];
}

function bodySheet(
  frame: PlanFrame,
  order: PacketFilesOrder,
  at: { readonly tab: BodyTab; readonly sheet: BodySheet },
): PlanSheet {
  const { row } = at.tab;
  const position = `${at.sheet.n} of ${order.total}`;
  if (at.sheet.of === 'leaf') {
    const margin = { code: frame.code, position, tabs: frame.rows.length, tab: row.tab.tab, draft: frame.draft };
    const beside = order.beside.get(row.tab.tab) ?? [];
    const drawing = drawLeaf(frame, { sort: at.sheet.sort, row, margin, beside, sheets: sheetRange(at.tab) });
    return { of: 'written', sort: at.sheet.sort, tab: row.tab.tab, title: row.tab.title, drawing };
  }
  return paperSheet(frame, at.sheet, position);
}

type PageSheet = Extract<BodySheet, { of: 'page' }>;

/** A page of a paper with its stamp, or the reason it has none. */
export function paperSheet(frame: PlanFrame, sheet: PageSheet, position: string): PlanSheet {
  const { row, page, edition, title } = sheet;
  const { tab } = row.tab;
  const text = `${frame.code} · tab ${tab} · ${position}`;
  const order = { text, tab, tabs: frame.rows.length, draft: frame.draft };
  const stamp = row.sealed
    ? { none: 'sealed: nothing is added' }
    : frame.delivery.stamps
      ? stampFor(page, order, frame.metrics)
      : { none: 'this delivery goes without margin lines' };
  return { of: 'paper', tab, title, edition, page, stamp };
}

function bookmarksOf(front: readonly PlanSheet[], tabs: readonly BodyTab[]): readonly PlanBookmark[] {
  const written = front.flatMap((sheet, at) =>
    sheet.of === 'written' && (sheet.sort === 'cover' || sheet.title === 'Index')
      ? [{ title: sheet.title, sheet: at, children: [] }]
      : [],
  );
  let at = front.length;
  const papers = tabs.flatMap((tab): readonly PlanBookmark[] => {
    const sheet = at;
    at += tab.sheets.length;
    if (tab.sheets.length === 0) return [];
    const { row } = tab;
    const reference = row.pages.how === 'linked' && row.pages.reference ? ' (reference copy)' : '';
    const missing = row.tab.place === 'missing' ? ' (missing)' : '';
    const children = riderBookmarks(tab, sheet);
    return [{ title: `${row.tab.tab}  ${row.tab.title}${reference}${missing}`, sheet, children }];
  });
  return [...written, ...papers];
}

/** Where each rider of a tab begins; `first` is the tab's first sheet in its file. */
export function riderBookmarks({ row, sheets }: BodyTab, first: number): readonly PlanBookmark[] {
  return row.riders.flatMap(({ edition, title }) => {
    const at = sheets.findIndex((sheet) => sheet.of === 'page' && sheet.edition === edition.id);
    return at === -1 ? [] : [{ title, sheet: first + at, children: [] }];
  });
}

/** Cover and index i, ii ...; every sheet after them by its number in the packet, through all volumes. */
function labelsOf(front: number, body: number, first: number): readonly PlanLabel[] {
  return [
    ...(front === 0 ? [] : [{ sheet: 0, style: 'roman', prefix: '', start: 1 } as const]),
    ...(body === 0 ? [] : [{ sheet: front, style: 'decimal', prefix: '', start: first } as const]),
  ];
}
