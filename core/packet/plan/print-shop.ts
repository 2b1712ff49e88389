import { needsPrintShop, sheetInWords, sheetNameOf } from '../../vocabulary/sheets.ts';
import type { PlanFile, PlanLabel, PlanSheet } from '../plan-model.ts';
import { pageBytes } from './body.ts';
import type { PlanFrame } from './frame.ts';
import { fileBytes } from './volumes.ts';

type Assembled = Extract<PlanFile, { of: 'assembled' }>;
type PaperSheet = Extract<PlanSheet, { of: 'paper' }>;

/** "12 sheets ARCH D, 2 sheets ANSI B": what to tell the print shop; sizes without a name in inches. */
export function sizesInWords(pages: readonly { readonly width: number; readonly height: number }[]): string {
  const counts = new Map<string, number>();
  for (const { width, height } of pages) {
    const name = sizeInWords(width, height);
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return [...counts].map(([name, count]) => `${count} ${count === 1 ? 'sheet' : 'sheets'} ${name}`).join(', ');
}

function sizeInWords(width: number, height: number): string {
  const name = sheetNameOf(width, height);
  if (name !== undefined) return sheetInWords(name);
  const inches = (points: number): string => String(Math.round((points / 72) * 10) / 10);
  return `${inches(Math.min(width, height))} x ${inches(Math.max(width, height))} in`;
}

const carriesPaper = (frame: PlanFrame): boolean =>
  frame.delivery.way === 'counter' || frame.delivery.way === 'site binder' || frame.delivery.way === 'lender';

/** The large sheets of a packet that is carried as paper, once more in a file of their own, in order. */
export function printShopFile(frame: PlanFrame, files: readonly Assembled[]): Assembled | undefined {
  if (!carriesPaper(frame)) return undefined;
  const large: { readonly sheet: PaperSheet; readonly n: number }[] = [];
  for (const file of files) {
    let n = 0;
    for (const [at, sheet] of file.sheets.entries()) {
      const label = file.labels.findLast((one) => one.sheet <= at);
      n = label === undefined ? at + 1 : label.start + at - label.sheet;
      if (sheet.of === 'paper' && needsPrintShop(sheet.page.facts.width, sheet.page.facts.height))
        large.push({ sheet, n });
    }
  }
  if (large.length === 0) return undefined;
  const sheets = large.map(({ sheet }) => sheet);
  const bookmarks = sheets.flatMap((sheet, at) =>
    at === 0 || sheets[at - 1]?.tab !== sheet.tab
      ? [{ title: `${sheet.tab}  ${sheet.title}`, sheet: at, children: [] }]
      : [],
  );
  const labels: readonly PlanLabel[] = large.flatMap(({ n }, at) =>
    at > 0 && large[at - 1]?.n === n - 1 ? [] : [{ sheet: at, style: 'decimal', prefix: '', start: n } as const],
  );
  return {
    of: 'assembled',
    sort: 'print shop',
    name: frame.names.plain(frame.stem, 'pdf', `${frame.draft ? '-DRAFT' : ''}-print-shop`),
    title: `For the print shop: ${sizesInWords(sheets.map(({ page }) => page.facts))}`,
    sheets,
    bookmarks,
    labels,
    estimatedBytes: fileBytes + sheets.reduce((sum, { page }) => sum + page.facts.bytes + pageBytes, 0),
  };
}
