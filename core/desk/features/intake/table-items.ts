import type { PaperReading } from '../../../intake/reading/reading-model.ts';
import type { TableFile } from '../../../store/index.ts';
import type { LotView } from '../../../vocabulary/lot.ts';
import { pagesInWords } from '../../../vocabulary/page-picks.ts';
import type { AtLot } from '../../context.ts';
import type { KeptPages, TableItem, TableSuggestion } from '../../contract/table-answers.ts';
import { lookOf } from '../file-look.ts';
import { attendantOf, readerOf } from './companions.ts';
import type { Words } from './lot-reader.ts';
import { sameAgain } from './same-again.ts';
import { offeredOf } from './suggestion.ts';
import type { Seen } from './table-attendant.ts';

/** Items of the table as they are answered: with what was read off them, and which of their pages are kept. */

interface Told {
  readonly view: LotView;
  readonly suggestion: TableSuggestion;
}

/** A table of fifty files is asked for at every change: what was read is held against the lot once per state of it. */
const toldBefore = new WeakMap<PaperReading, Told>();

/** What was read of a file while nobody waited. */
function suggestedOf({ words, reading }: Seen, at: AtLot): TableSuggestion | undefined {
  if (words === undefined || reading === undefined) return undefined;
  const view = at.lot.view();
  const before = toldBefore.get(reading);
  if (before?.view === view) return before.suggestion;
  const suggestion = suggestionOf(words, reading, at);
  toldBefore.set(reading, { view, suggestion });
  return suggestion;
}

function suggestionOf(words: Words, reading: PaperReading, at: AtLot): TableSuggestion {
  const view = at.lot.view();
  return {
    ...offeredOf(reading, { practice: at.lot.practice(), view }),
    pages: words.written.length,
    blank: words.written.flatMap(({ page, blank }) => (blank ? [page] : [])),
    again: sameAgain({ kind: reading.kind, number: reading.number?.value, issuer: reading.issuer?.value }, view),
  };
}

interface Kept {
  readonly already?: string | undefined;
  readonly keptPages: readonly KeptPages[];
  readonly leftPages?: string | undefined;
}

/** Kept as a whole, or some of its pages: blank ones are nobody's loss. */
async function keptOf(file: TableFile, at: AtLot): Promise<Kept> {
  const sha = file.already === undefined ? undefined : await at.lot.tableHash(file.name);
  if (sha === undefined) return { already: file.already, keptPages: [] };
  const uses = at.lot.usesOf(sha);
  const used = new Set(uses.flatMap(({ pages }) => pages));
  for (const { page, blank } of readerOf(at).wordsNow(sha)?.written ?? []) if (blank) used.add(page);
  const count = uses[0]?.count ?? 0;
  if (used.size >= count) return { already: file.already, keptPages: [] };
  const left = Array.from({ length: count }, (_, page) => page).filter((page) => !used.has(page));
  return {
    already: undefined,
    leftPages: pagesInWords(left),
    keptPages: uses.map(({ edition, title, pages }) => ({ edition, title, pages: pagesInWords(pages) })),
  };
}

export async function itemOf(file: TableFile, at: AtLot): Promise<TableItem> {
  const { name, path, bytes, since, arriving } = file;
  const seen = attendantOf(at)?.seen(file);
  return {
    item: name,
    ticket: at.tickets.steady(path, name),
    name,
    bytes,
    since,
    sort: lookOf(path),
    arriving,
    ...(await keptOf(file, at)),
    reading: seen?.state,
    unread: seen?.unread,
    suggested: seen === undefined ? undefined : suggestedOf(seen, at),
  };
}
