import type { Filled } from './fill.ts';

/** What a person calls the rows of a table; the rest is told as entries. */
const words: Readonly<Record<string, string>> = {
  paper: 'papers',
  edition: 'editions of papers',
  edition_part: 'parts of papers',
  edition_original: 'files of papers',
  fact: 'facts read off papers',
  mark: 'marks on papers',
  standing: 'words of offices on papers',
  file: 'files',
  rendition: 'sound pages',
  page: 'pages',
  page_text: 'words of pages',
  packet: 'packets',
  packet_file: 'files of packets',
  handover: 'handovers',
  visit: 'visits',
  comment: 'comments of offices',
  record: 'photos, receipts and notes',
  lot_fact: 'answers about the lot',
  identity: 'names of the lot',
  subject: 'firms and areas',
  event: 'events',
  invoice: 'invoices',
  payment: 'payments',
  cost_line: 'lines of the cost of the house',
  act: 'acts of the history',
  change: 'changes of the history',
};

function called(table: string): string {
  return words[table] ?? `entries (${table.replaceAll('_', ' ')})`;
}

export interface MendTold {
  readonly filled: readonly Filled[];
  readonly adopted: number;
  readonly dropped: ReadonlyMap<string, number>;
  readonly copyName: string | undefined;
  /** Where the damaged database lies. */
  readonly kept: string;
}

/** What was read, what came from where, what is gone. */
export function mendWords({ filled, adopted, dropped, copyName, kept }: MendTold): readonly string[] {
  const read = filled.reduce((sum, one) => sum + one.read, 0);
  const notes = [`${read} entries were read from the damaged lot.sqlite; it is kept as ${kept}.`];
  for (const { table, fromCopy } of filled) {
    if (fromCopy > 0) notes.push(`${fromCopy} ${called(table)} were taken from the copy ${copyName ?? ''}.`);
  }
  if (filled.some(({ fromCopy }) => fromCopy > 0)) {
    notes.push('What was changed in those since that copy was made is missing: look through them.');
  }
  for (const { table, lost } of filled) {
    if (lost === 'unknown') notes.push(`What ${called(table)} there were can’t be told any more.`);
    else if (lost > 0) notes.push(`Up to ${lost} ${called(table)} are gone: no copy holds them.`);
  }
  for (const [table, count] of dropped) {
    notes.push(`${count} ${called(table)} rested on something that is gone, and went with it.`);
  }
  if (adopted > 0) notes.push(`${adopted} files lost their names; they bear the beginning of their hash now.`);
  return [...notes, 'Run verify, then make a backup: bundle.'];
}
