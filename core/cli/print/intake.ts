import { dayInWords, type RequestAnswer } from '../../desk/door.ts';
import { counted, sizeInWords, table, wrapped } from './lines.ts';

type Read = RequestAnswer<'read'>;
type Value = NonNullable<Read['number']>;

/** How far it may be trusted, as a sign before the line. */
const trust = { sure: '  ', likely: '? ', guess: '??' } as const;

function valueRow(label: string, value: Value | undefined): readonly (readonly string[])[] {
  if (value === undefined) return [];
  const { sureness, words, page, read, doubts } = value;
  return [[`  ${trust[sureness]} ${label}:`, words, `page ${page + 1}, "${read}"`, doubts.join(' ')]];
}

/** Where one scan looks like several papers: which, why, and how each is kept. */
function cutLines({ cuts, names }: Read): readonly string[] {
  if (cuts.length === 0) return [];
  const [name = 'scan.pdf'] = names;
  return [
    `This looks like ${cuts.length} papers:`,
    ...table(
      cuts.map(({ pages, title, because = '' }) => [
        `  ${/[-,]/.test(pages) ? 'pages' : 'page'} ${pages}`,
        title,
        because,
      ]),
    ),
    'Nothing is parted by itself. If it is so, keep all of them at once, or each by its pages:',
    `  keep-parts ${JSON.stringify(name)}`,
    ...cuts.map(({ pages, kind }) => `  keep ${JSON.stringify(name)} --page ${pages} --kind ${kind ?? 'KIND'}`),
  ];
}

/** What was read, with how far it may be trusted; nothing of it is noted yet. */
export function readText(read: Read): string {
  const [kind] = read.kinds;
  const lines = [
    `${read.names.join(', ')}: ${counted(read.pages, 'page')}${kind === undefined ? '' : `, reads like: ${kind.title}`}`,
    ...read.kinds.map(
      (one) => `  ${trust[one.sureness]} ${one.kind}: ${one.because.map((words) => `"${words}"`).join(', ')}`,
    ),
    ...table([
      ...valueRow('Issued', read.issued),
      ...valueRow('In force from', read.effective),
      ...valueRow('Good through', read.goodThrough),
      ...valueRow('Number', read.number),
      ...valueRow('Issued by', read.issuer),
      ...Object.entries(read.facts).flatMap(([fact, value]) => valueRow(fact, value)),
    ]),
    ...(read.blank.length === 0 ? [] : [`  Blank: ${read.blank.map((page) => page + 1).join(', ')}`]),
    ...cutLines(read),
    ...(read.again === undefined ? [] : wrapped(read.again.why, 2)),
    ...read.notes.flatMap((note) => wrapped(note, 2)),
    'Nothing of this is noted; "?" wants a look, "??" is a guess. Say what is right when you keep it.',
  ];
  return lines.join('\n');
}

export function unpackText({ item, laid, notes }: RequestAnswer<'unpack'>): string {
  return [
    `${item}: ${counted(laid.length, 'file')} laid on the table`,
    ...laid.map((file) => `  ${file.item}${file.already === undefined ? '' : ` (kept already, as ${file.already})`}`),
    ...notes.flatMap((note) => wrapped(note, 2)),
  ].join('\n');
}

export function recordFilesText({ noted, refused, notes }: RequestAnswer<'record-files'>): string {
  return [
    ...table(
      noted.map(({ title, day, by, already }) => [
        already ? '  noted before' : '  noted',
        title,
        `${dayInWords(day)}, by ${by}`,
      ]),
    ),
    ...refused.flatMap(({ file, error }) => [
      `Not noted: ${file}`,
      ...wrapped(`${error.message} ${error.next ?? ''}`, 4),
    ]),
    ...notes.flatMap((note) => wrapped(note, 0)),
  ].join('\n');
}

export function slimText({ title, files }: RequestAnswer<'slim'>): string {
  return files
    .flatMap(({ name, before, after, fits, notes }) => [
      `${title}: ${sizeInWords(before)} before, ${sizeInWords(after)} after${fits ? '' : '; that is as small as it gets'} (${name})`,
      ...notes.flatMap((note) => wrapped(note, 2)),
    ])
    .join('\n');
}
