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

type Count = readonly [table: string, count: number | string];

/** One sentence for all tables a thing is true of: "papers (1), files (up to 3)". None where it is true of none. */
function listed(say: string, counts: readonly Count[]): readonly string[] {
  if (counts.length === 0) return [];
  return [`${say}: ${counts.map(([table, count]) => `${called(table)} (${count})`).join(', ')}.`];
}

/** What was read, what came from where, what is gone. */
export function mendWords({ filled, adopted, dropped, copyName, kept }: MendTold): readonly string[] {
  const read = filled.reduce((sum, one) => sum + one.read, 0);
  const copied = filled.flatMap(({ table, fromCopy }): readonly Count[] => (fromCopy > 0 ? [[table, fromCopy]] : []));
  const gone = filled.flatMap(({ table, lost }): readonly Count[] =>
    lost === 'unknown' || lost === 0 ? [] : [[table, `up to ${lost}`]],
  );
  return [
    `Entries read from the damaged lot.sqlite: ${read}; it is kept as ${kept}.`,
    ...listed(`Taken from the copy ${copyName ?? ''}`, copied),
    ...(copied.length > 0 ? ['What was changed in those since that copy was made is missing: look through them.'] : []),
    ...filled.flatMap(({ table, lost }) =>
      lost === 'unknown' ? [`What ${called(table)} there were can’t be told any more.`] : [],
    ),
    ...listed('Gone, no copy holds them', gone),
    ...listed('Went too, since they rested on something that is gone', [...dropped]),
    ...(adopted > 0 ? [`Files that lost their names: ${adopted}; they bear the beginning of their hash now.`] : []),
    'Run verify, then make a backup: bundle.',
  ];
}
