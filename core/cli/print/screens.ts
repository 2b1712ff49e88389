import { dayInWords, type RequestAnswer } from '../../desk/door.ts';
import { figureLines } from './figures.ts';
import { paperMarks } from './findings.ts';
import { commentWords, counted, labelled, sizeInWords, table, wrapped } from './lines.ts';

type Pages = RequestAnswer<'pages'>;

function printedRows(paper: Pages): readonly (readonly string[])[] {
  const rows: readonly (readonly [string, string])[] = [
    ['Number', paper.number],
    ['Issued', paper.issued === undefined ? '' : dayInWords(paper.issued)],
    ['By', paper.issuer === '' ? paper.office.title : paper.issuer],
    ['Revision', paper.revision],
    ['How long', paper.validityWords],
    ['Marks', paper.marks.join(', ')],
    ...paper.facts.map(({ title, words }) => [title, words] as const),
    ...paper.standings.map(({ officeTitle, word, day }) => [officeTitle, `${word} ${dayInWords(day)}`] as const),
    ...paper.holders.map(({ to, day, copies, surrendered }): readonly [string, string] => [
      'They hold it',
      `${to} since ${dayInWords(day)}, ${surrendered ? 'the original' : counted(copies, 'copy', 'copies')}`,
    ]),
  ];
  return rows.filter(([, value]) => value !== '').map(([label, value]) => [`  ${label}:`, value]);
}

export function pagesText(paper: Pages): string {
  const whose = paper.subjectTitle === undefined ? '' : `, ${paper.subjectTitle}`;
  return [
    `${paper.title}${whose} (${paper.edition}${paper.current ? ', the one that counts' : ''})`,
    `${paperMarks[paper.state]}, ${counted(paper.pages.length, 'page')}`,
    ...table(printedRows(paper)),
    ...paper.clocks.flatMap(({ words }) => wrapped(words, 2)),
    ...figureLines(paper.figures),
    ...paper.links.map(({ direction, word, title, number }) =>
      direction === 'to' ? `  ${word} ${title} ${number}`.trimEnd() : `  ${title} ${number} ${word} it`,
    ),
    ...paper.notes.flatMap((note) => wrapped(note, 2)),
    ...table(paper.originals.map(({ name, bytes }) => [`  ${name}`, sizeInWords(bytes)])),
  ].join('\n');
}

type Office = RequestAnswer<'with-offices'>['offices'][number];
type Handed = Office['handed'][number];

function handedLines({ handover, day, title, to, how, receipt, editions }: Handed): readonly string[] {
  return [
    `  ${dayInWords(day)}  ${title === '' ? 'papers' : title} to ${to}, ${how}${receipt === '' ? '' : `, receipt ${receipt}`} (${handover})`,
    ...editions
      .filter(({ old, surrendered }) => old || surrendered)
      .map(({ title: paper, number, surrendered }) =>
        surrendered
          ? `      they have your original: ${paper}`
          : `      they hold an old copy: ${paper} ${number}`.trimEnd(),
      ),
  ];
}

type Changed = RequestAnswer<'with-offices'>['changed'][number];

function holderLines(holders: Changed['holders']): readonly string[] {
  return table(
    holders.map(({ to, holds, day, how, copies }) => [
      `  ${to}`,
      `holds ${holds}${copies > 1 ? `, ${copies} copies` : ''}`,
      `since ${dayInWords(day)}, ${how}`,
    ]),
  );
}

function makerLines(makers: Changed['makers']): readonly string[] {
  return table(
    makers.map(({ office, title, number, from }) => [
      `  ${office}`,
      `made ${title}${number === '' ? '' : ` ${number}`} from ${from}`,
    ]),
  );
}

function pendingLines({ title, now, pending }: Changed): readonly string[] {
  if (pending === undefined) return [];
  const { next, dated, office, tell, makers } = pending;
  const say = `${title}: ${next} of ${dayInWords(dated)} is not approved yet by ${office}: ${now} counts on the site. Once it is approved, tell:`;
  return [...wrapped(say, 0), ...holderLines(tell), ...makerLines(makers), ''];
}

/** Whom to tell that a paper changed: who holds the old one, who made something from it. */
function changedLines(changed: Changed): readonly string[] {
  const { title, now, since, holders, makers } = changed;
  if (holders.length + makers.length === 0) return pendingLines(changed);
  return [
    ...pendingLines(changed),
    `${title}: ${now} counts since ${dayInWords(since)}. Tell those who have the old one:`,
    ...holderLines(holders),
    ...makerLines(makers),
    '',
  ];
}

function officeLines({ office, waiting, back, handed, awaited, clocks, unseen }: Office): readonly string[] {
  return [
    [office.title, office.phone, office.hours].filter(Boolean).join(', '),
    ...waiting.map(
      ({ title, since, days }) => `  left with them: ${title}, ${dayInWords(since)} (${counted(days, 'day')})`,
    ),
    ...back.flatMap(({ title, cameBack, comments }) => [
      `  ${cameBack}: ${title}`,
      ...comments.flatMap(({ comment, number, text, answer }) => [
        ...labelled(`    ${number}.`, `${text} (${commentWords(comment, answer)})`, 0),
        ...(answer === undefined ? [] : labelled('      answered:', answer, 0)),
      ]),
    ]),
    ...clocks.flatMap(({ say }) => wrapped(say, 2)),
    ...awaited.map(
      ({ title, expected }) =>
        `  you wait for: ${title}${expected === undefined ? '' : `, expected by ${dayInWords(expected)}`}`,
    ),
    ...handed.flatMap(handedLines),
    ...unseen.flatMap(({ title, number, errandTitle, holds }) =>
      labelled(
        '  not seen by them yet:',
        `${title}${number === '' ? '' : `, ${number}`}${holds === undefined ? '' : ` (they hold ${holds})`}; for "${errandTitle}"`,
        0,
      ),
    ),
    '',
  ];
}

export function officesText({ changed, offices, others }: RequestAnswer<'with-offices'>): string {
  if (changed.length + offices.length + others.length === 0) return 'Nothing lies with any office.';
  const rest = others.length === 0 ? [] : ['Others', ...others.flatMap(handedLines)];
  return [...changed.flatMap(changedLines), ...offices.flatMap(officeLines), ...rest].join('\n').trimEnd();
}

export function tableText({ items, aside, folder }: RequestAnswer<'table'>): string {
  const put = aside.length === 0 ? '' : `\nPut aside: ${aside.join(', ')}`;
  if (items.length === 0) return `Nothing lies on the table (${folder}).${put}`;
  const word = (item: (typeof items)[number]): string =>
    item.arriving ? 'still arriving' : item.already === undefined ? '' : `kept already: ${item.already}`;
  return table(items.map((item) => [item.name, item.sort, sizeInWords(item.bytes), word(item)])).join('\n') + put;
}

export function laidText({ laid, refused, notes }: RequestAnswer<'lay-down'>): string {
  return [
    ...laid.map(
      ({ name, already }) => `On the table: ${name}${already === undefined ? '' : ` (kept already: ${already})`}`,
    ),
    ...refused.flatMap(({ file, error }) => [
      `Not laid down: ${file}`,
      ...wrapped(error.message, 4),
      ...wrapped(error.next ?? '', 4),
    ]),
    ...notes.flatMap((note) => wrapped(note, 0)),
  ].join('\n');
}

export function amendableText({ title, rows }: RequestAnswer<'amendable'>): string {
  const groups = Map.groupBy(rows, ({ group }) => group);
  return [
    title,
    ...[...groups].flatMap(([group, own]) => ['', group, ...table(own.map(({ rule, say }) => [`  ${say}`, rule]))]),
  ].join('\n');
}

export function wordsText({ words, layers }: RequestAnswer<'practice-words'>): string {
  return [
    ...words.flatMap(({ word, officeTitle, who, day, change, remark }) => [
      ...wrapped(`${change.rule}: ${change.now}`.replace(/: $/, ''), 0),
      ...(change.was === undefined ? [] : wrapped(`before: ${change.was}`, 2)),
      ...wrapped(
        `${officeTitle}: ${who} on ${dayInWords(day)}${remark === undefined ? '' : `: ${remark}`} (${word})`,
        2,
      ),
    ]),
    ...(words.length === 0 ? ['No office said anything otherwise so far.'] : []),
    '',
    ...layers.map(({ name, sort }) => `  ${sort.padEnd(7)} ${name}`),
  ].join('\n');
}

export function draftText({ name, bytes, attached, tooLargeFor, notes }: RequestAnswer<'mail-draft'>): string {
  return [
    `Draft ${name} (${sizeInWords(bytes)}), with: ${attached.join(', ')}`,
    ...(tooLargeFor === undefined ? [] : wrapped(tooLargeFor, 2)),
    ...notes.flatMap((note) => wrapped(note, 2)),
    'It goes away when the lot is closed: with --out FOLDER you get a copy.',
  ].join('\n');
}
