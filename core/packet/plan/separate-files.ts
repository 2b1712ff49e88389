import type { PlanFile } from '../plan-model.ts';
import { namePartsOf } from './beside.ts';
import { type BodySheet, layBody } from './body.ts';
import type { PlanFrame } from './frame.ts';
import { paperSheet, riderBookmarks } from './packet-files.ts';
import { fileBytes } from './volumes.ts';

type Assembled = Extract<PlanFile, { of: 'assembled' }>;

/** One file per paper, named the office's way; papers that go untouched are handled beside. */
export function separateFiles(frame: PlanFrame): readonly Assembled[] {
  const tabs = layBody(frame.rows, false).filter(({ row }) => row.pages.how === 'linked' && !row.pages.reference);
  return tabs.map((tab): Assembled => {
    const { row } = tab;
    const pages = tab.sheets.filter((sheet): sheet is Extract<BodySheet, { of: 'page' }> => sheet.of === 'page');
    return {
      of: 'assembled',
      sort: 'paper',
      name: frame.names.byPattern(namePartsOf(frame, row)),
      title: row.tab.title,
      sheets: pages.map((sheet, page) => paperSheet(frame, sheet, `${page + 1} of ${pages.length}`)),
      bookmarks: frame.delivery.bookmarks ? [{ title: row.tab.title, sheet: 0, children: riderBookmarks(tab, 0) }] : [],
      labels: [{ sheet: 0, style: 'decimal', prefix: '', start: 1 }],
      estimatedBytes: fileBytes + tab.bytes,
    };
  });
}
