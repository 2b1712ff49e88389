import type { Block } from '../../typeset/flow.ts';
import { wording } from '../../typeset/wording.ts';
import { sheetInWords } from '../../vocabulary/sheets.ts';
import type { PlanFile } from '../plan-model.ts';
import type { PlanFrame } from './frame.ts';
import { onScreen } from './on-screen.ts';
import { sizesInWords } from './print-shop.ts';

/** What to print or send: files, sets, copies beyond the sets, sheets for the print shop. */
export function printBlocks(frame: PlanFrame, files: readonly PlanFile[]): readonly Block[] {
  const screen = onScreen(frame.delivery);
  const items = screen ? sendItems(frame, files) : printItems(frame, files);
  if (items.length === 0) return [];
  const now = screen ? wording.errand.send : wording.errand.print;
  const later = screen ? wording.errand.sendLater : wording.errand.printLater;
  const title = frame.draft ? later : now;
  return [{ block: 'heading', text: title }, ...items];
}

function printItems(frame: PlanFrame, files: readonly PlanFile[]): readonly Block[] {
  const { delivery } = frame;
  const sets = Math.max(1, delivery.sets);
  const times = sets === 1 ? 'print once' : `print ${sets} times, as ${sets} collated sets`;
  const items: Block[] = [];
  for (const file of files) {
    if (file.of === 'untouched')
      items.push({
        block: 'item',
        text: file.name,
        more: 'the untouched file: take it on a stick; a print of a signed file is not signed',
      });
    else if (file.sort === 'print shop')
      items.push({ block: 'item', text: file.name, more: `${file.title}; ${times}` });
    else if (file.sort !== 'errand sheet')
      items.push({ block: 'item', text: file.name, more: `${sheetCount(file)}; ${times}` });
  }
  for (const row of frame.rows) {
    if (row.tab.copies <= sets || row.edition === undefined || row.tab.seeTab !== undefined) continue;
    const sizes = row.need?.sheets.map(sheetInWords).join(' or ') ?? '';
    const on = sizes === '' ? '' : ` on ${sizes}`;
    items.push({
      block: 'item',
      text: `${row.tab.title}: ${row.tab.copies} copies${on}`,
      more: `${row.tab.copies - sets} more than the sets hold`,
    });
  }
  const large = files.some((file) => file.of === 'assembled' && file.sort === 'print shop');
  if (large) {
    items.push({ block: 'space' });
    items.push({
      block: 'text',
      text: 'Large sheets are in the packet too: leave them out when you print it, and lay the print shop’s in.',
      quiet: true,
    });
  }
  return items;
}

function sheetCount(file: Extract<PlanFile, { of: 'assembled' }>): string {
  const pages = file.sheets.map((sheet) => (sheet.of === 'paper' ? sheet.page.facts : sheet.drawing));
  return `${pages.length} sheets: ${sizesInWords(pages)}`;
}

function sendItems(frame: PlanFrame, files: readonly PlanFile[]): readonly Block[] {
  const limit = frame.delivery.fileLimit;
  const items = files.flatMap((file): readonly Block[] => {
    if (file.of === 'assembled' && file.sort === 'errand sheet') return [];
    const bytes = file.of === 'assembled' ? file.estimatedBytes : file.file.bytes;
    const about = file.of === 'assembled' ? 'about ' : '';
    const untouched = file.of === 'untouched' ? ', untouched' : '';
    return [{ block: 'item', text: file.name, more: `${file.title}; ${about}${megabytes(bytes)}${untouched}` }];
  });
  if (limit === undefined) return items;
  return [...items, { block: 'text', text: `They take files up to ${megabytes(limit)}.`, quiet: true }];
}

/** "3.4 MB"; under a tenth, in kB. */
export function megabytes(bytes: number): string {
  if (bytes < 100_000) return `${Math.max(1, Math.round(bytes / 1000))} kB`;
  const mega = bytes / 1_000_000;
  return `${mega < 10 ? mega.toFixed(1) : Math.round(mega)} MB`;
}
