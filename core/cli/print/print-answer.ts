import {
  dayInWords,
  factInWords,
  type LotfileError,
  moneyInWords,
  type RequestAnswer,
  type RequestName,
} from '../../desk/door.ts';
import { momentInWords, papersSay } from '../../vocabulary/in-words.ts';
import { costsText, drawCheckText, tradesText } from './costs.ts';
import { findingLines, paperMarks } from './findings.ts';
import { filledText, formText } from './forms.ts';
import { bundleText, houseRecordText, mergeText, restoredText } from './going-out.ts';
import { inspectionsText } from './inspections.ts';
import { readText, recordFilesText, slimText, unpackText } from './intake.ts';
import { lapsesText } from './lapses.ts';
import { counted, labelled, sizeInWords, table, wrapped } from './lines.ts';
import { assembledText, planText } from './packet.ts';
import { amendableText, draftText, laidText, officesText, pagesText, tableText, wordsText } from './screens.ts';
import { todayText } from './today.ts';
import { errandText, wayText } from './way.ts';
import { calendarText, writtenText } from './written.ts';

type Printers = { readonly [N in RequestName]: (answer: RequestAnswer<N>) => string };

const noted = (): string => 'Noted.';
const notedRow = ({ row }: { readonly row: string }): string => `Noted: ${row}`;

/** What papers say that the card does not. */
function toldText({ questions }: RequestAnswer<'read-lot'>): readonly string[] {
  return questions.flatMap(({ id, told }) =>
    told.flatMap(({ answer, say, papers }) =>
      wrapped(`${papersSay(papers, say)} If that is so: answer ${id} ${JSON.stringify(answer)}`, 2),
    ),
  );
}

function lotCardText(card: RequestAnswer<'read-lot'>): string {
  const first = card.questions.filter((question) => question.first || question.answer !== undefined);
  return [
    card.title,
    `Practice: ${card.practice}`,
    card.target === undefined ? 'No day to move in set yet.' : `Move in: ${dayInWords(card.target)}`,
    card.backup === undefined
      ? 'No backup noted yet: bundle --out FOLDER, then backed-up NAME BYTES.'
      : `Last backed up on ${dayInWords(card.backup.day)}: ${card.backup.name}, ${sizeInWords(card.backup.bytes)}.`,
    '',
    ...table(
      first.map(({ id, ask, answer, choices }) => [
        `  ${id}`,
        answer === undefined ? 'not answered' : factInWords(answer),
        choices.length === 0 ? ask : `${ask} [${choices.join(' | ')}]`,
      ]),
    ),
    ...toldText(card),
    '',
    ...table(card.identities.map(({ sort, text, to }) => [`  ${sort}`, text, to === undefined ? '' : `until ${to}`])),
    ...table(card.subjects.map(({ title, from, to, id }) => [`  firm`, title, `${from ?? '?'} to ${to ?? 'now'}`, id])),
    ...table(card.events.map(({ title, day }) => [`  ${dayInWords(day)}`, title])),
  ].join('\n');
}

function keptText({ kept, refused, notes }: RequestAnswer<'keep'>): string {
  return [
    ...kept.flatMap((paper) => [
      `Kept ${paper.title}${paper.already ? ' (already in the lot)' : ''}: ${counted(paper.pages, 'page')}${paper.sealed ? ', digitally signed' : ''}. ${paper.edition}`,
      ...paper.notes.flatMap((note) => wrapped(note, 4)),
      ...(paper.undated === undefined
        ? []
        : [
            ...wrapped(`Nobody can say how long it is good: ${paper.undated}. As soon as you know it:`, 4),
            `    correct ${paper.edition} --issued DAY${paper.endStated === true ? '    (or --good-through DAY)' : ''}`,
          ]),
      ...(paper.unnumbered.length === 0
        ? []
        : [
            ...wrapped(`Kept without its number. It will be missed for: ${paper.unnumbered.join('; ')}.`, 4),
            `    correct ${paper.edition} --number NUMBER`,
          ]),
    ]),
    ...refused.flatMap(({ file, error }) => [
      `Not kept: ${file}`,
      ...wrapped(error.message, 4),
      ...wrapped(error.next ?? '', 4),
    ]),
    ...notes.flatMap((note) => wrapped(note, 0)),
  ].join('\n');
}

function papersText({ papers }: RequestAnswer<'papers'>): string {
  return papers
    .flatMap((paper) => [
      `${paperMarks[paper.state].padEnd(16)} ${paper.title}${paper.subject === undefined ? '' : `, ${paper.subject}`} (${paper.office})`,
      ...(paper.undated === undefined ? [] : wrapped(`How long it is good is not known: ${paper.undated}.`, 4)),
      ...table(
        paper.editions.map((edition) => [
          edition.current ? '   >' : '    ',
          edition.edition,
          edition.number,
          edition.issued,
          edition.goodThrough === '' ? '' : `good through ${edition.goodThrough}`,
          counted(edition.pages, 'page'),
          edition.marks.length === 0 ? '' : `marks: ${edition.marks.join(', ')}`,
        ]),
      ),
    ])
    .join('\n');
}

function verifyText({ files, problems }: RequestAnswer<'verify'>): string {
  if (problems.length === 0) return `${counted(files, 'file')} checked; every byte is as it was kept.`;
  return [
    `${counted(files, 'file')} checked; ${counted(problems.length, 'problem')}:`,
    ...problems.flatMap(({ say, next }) => [...wrapped(say, 2), ...labelled('What to do:', next, 4)]),
  ].join('\n');
}

const printers: Printers = {
  'new-lot': ({ title }) => `Made the lot "${title}". Next: answer its questions (read-lot), then see the way.`,
  'open-lot': ({ title }) => title,
  'close-lot': () => '',
  'read-lot': lotCardText,
  answer: noted,
  target: noted,
  event: ({ findings }) =>
    findings.length === 0 ? 'Noted.' : ['Noted.', '', ...findings.flatMap(findingLines)].join('\n').trimEnd(),
  identity: noted,
  same: noted,
  engage: ({ subject }) => `Noted: ${subject}`,
  keep: keptText,
  'keep-parts': keptText,
  papers: papersText,
  correct: ({ notes }) => ['Noted.', ...notes].join('\n'),
  'not-applicable': noted,
  standing: noted,
  way: wayText,
  errand: errandText,
  visit: ({ visit }) => `Noted: ${visit}`,
  plan: planText,
  assemble: assembledText,
  packets: ({ packets }) =>
    table(
      packets.map((row) => [
        row.packet,
        dayInWords(row.day),
        `${row.title}${row.draft ? ' (DRAFT)' : ''}`,
        row.recipient,
      ]),
    ).join('\n'),
  'hand-over': ({ handover, notes }) => [`Noted: ${handover}`, ...notes].join('\n'),
  withdraw: noted,
  handovers: ({ handovers }) =>
    table(
      handovers.map((row) => [
        row.handover,
        dayInWords(row.day),
        row.packetTitle,
        row.to,
        row.how,
        row.receipt,
        row.withdrawn === undefined ? '' : `withdrawn: ${row.withdrawn}`,
      ]),
    ).join('\n'),
  find: ({ found }) =>
    found.length === 0
      ? 'Nothing found.'
      : found
          .map(({ sort, title, page, snippet, errand, office, when }) => {
            if (sort === 'paper') return `${title}${page === undefined ? '' : `, page ${page}`}: ${snippet}`;
            const name = `${title} (${sort} ${errand ?? office})`;
            return when === undefined ? name : `${name}, ${when}: ${snippet}`;
          })
          .join('\n'),
  history: ({ acts }) =>
    table(
      acts.map(({ act, at, title, undone, lasting }) => [
        act,
        momentInWords(at),
        `${title}${undone ? ' (undone)' : ''}`,
        lasting === undefined ? '' : lasting,
      ]),
    ).join('\n'),
  undo: ({ undone, onTable, notes }) =>
    [`Undone: ${undone}`, ...onTable.map((name) => `On the table again: ${name}`), ...notes].join('\n'),
  verify: verifyText,
  'clerk-said': noted,
  'another-paper': ({ title, need, elsewhere }) =>
    [`Noted: they want ${title} too (${need}).`, ...elsewhere.map((say) => `Elsewhere too: ${say}`)].join('\n'),
  practice: ({ practice, layers }) => [practice.title, ...layers.map((layer) => `  ${layer}`)].join('\n'),
  record: noted,
  records: ({ records }) =>
    table(
      records.map((row) => [
        dayInWords(row.day),
        row.sort,
        row.title,
        row.place,
        row.wall,
        row.trade,
        row.amount === undefined ? '' : moneyInWords(row.amount),
        row.file,
      ]),
    ).join('\n'),
  purge: ({ papers, packets, notes }) =>
    [
      notes.length === 0 ? 'Gone for good; a marker with your reason stays.' : 'Not all of it is gone yet:',
      ...notes,
      `Papers: ${papers.join(', ') || 'none'}.`,
      `Packets that held it: ${packets.join(', ') || 'none'}.`,
    ].join('\n'),
  today: todayText,
  inspections: inspectionsText,
  lapses: lapsesText,
  pages: pagesText,
  'with-offices': officesText,
  table: tableText,
  'lay-down': laidText,
  'put-aside': ({ name }) => `Put aside as ${name}.`,
  'take-up': ({ name }) => `On the table again: ${name}`,
  amendable: amendableText,
  'practice-words': wordsText,
  'practice-effect': ({ rows, more }) =>
    rows.length === 0
      ? 'Nothing would be otherwise on this lot.'
      : [...rows.map(({ say }) => say), ...(more === 0 ? [] : [`and ${more} more`])].join('\n'),
  'lay-over': ({ layers }) => `Laid over: ${layers.join(', ')}`,
  'export-practice': ({ name, layers }) =>
    `${name}, ${counted(layers, 'layer')}. It goes away when the lot is closed: with --out FOLDER you get a copy.`,
  'errand-sheet': ({ name, pages }) =>
    `Errand sheet ${name}, ${counted(pages, 'page')}. It goes away when the lot is closed: with --out FOLDER you get a copy.`,
  'mail-draft': draftText,
  'packet-files': ({ title, day, files, missing }) =>
    [
      `${title}, ${dayInWords(day)}`,
      ...table(files.map(({ name, bytes, sha256 }) => [`  ${name}`, sizeInWords(bytes), sha256])),
      ...missing.map((name) => `  ${name} is missing from the lot folder. Assemble the packet again.`),
    ].join('\n'),
  costs: costsText,
  'cost-line': notedRow,
  'change-order': notedRow,
  invoice: notedRow,
  payment: notedRow,
  waiver: notedRow,
  notice: notedRow,
  draw: notedRow,
  'remove-cost': noted,
  'draw-check': drawCheckText,
  trades: tradesText,
  'change-firm': ({ subject }) => `Noted: ${subject}`,
  comment: notedRow,
  'remove-comment': noted,
  'answer-comment': noted,
  'applies-again': noted,
  'end-firm': noted,
  'correct-firm': noted,
  'remove-firm': noted,
  'end-identity': noted,
  'remove-event': noted,
  'rename-lot': noted,
  unsay: noted,
  'write-paper': writtenText,
  calendar: calendarText,
  bundle: bundleText,
  'backed-up': noted,
  restore: restoredText,
  mend: ({ title, notes }) => [`${title} was mended.`, ...notes].join('\n'),
  merge: mergeText,
  'house-record': houseRecordText,
  read: readText,
  unpack: unpackText,
  'black-out': ({ title, edition, notes }) => [`Made a blacked-out copy of ${title}: ${edition}`, ...notes].join('\n'),
  slim: slimText,
  'form-fields': formText,
  'fill-form': filledText,
  'map-form': ({ boxes }) => `Noted; ${counted(boxes, 'box')} mapped now. See it: form-fields.`,
  'record-files': recordFilesText,
  'correct-records': noted,
  'remove-records': noted,
};

/** The answer in plain words. */
export function printAnswer<N extends RequestName>(name: N, answer: RequestAnswer<N>): string {
  return printers[name](answer);
}

/** What went wrong, which thing, what to do next. */
export function printError(error: LotfileError): string {
  return [error.message, ...(error.next === undefined ? [] : [error.next])].join('\n');
}

/** True where the answer says that something would be refused. */
export function wouldBeRefused(answer: object): boolean {
  return 'wouldBeRefused' in answer && answer.wouldBeRefused === true;
}
