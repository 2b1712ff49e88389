import type { AssembleAnswer, RequestAnswer } from '../../desk/door.ts';
import { findingsText } from './findings.ts';
import { counted, sizeInWords, table, wrapped } from './lines.ts';

const placeWords: Readonly<Record<string, string>> = {
  inside: '',
  beside: 'travels beside, untouched',
  'by hand': 'carry it by hand',
  missing: 'MISSING',
  'to follow': 'to follow',
};

type Tab = AssembleAnswer['tabs'][number];

export function tabRows(tabs: readonly Tab[]): readonly string[] {
  return table(
    tabs.map((tab) => [
      `  ${tab.tab}`.padStart(5),
      tab.title,
      tab.number,
      tab.dated,
      tab.pages === 0 ? '' : counted(tab.pages, 'page'),
      placeWords[tab.place] ?? tab.place,
    ]),
  );
}

/** What was assembled, and everything that would be said about it. */
export function assembledText(answer: AssembleAnswer): string {
  return [
    `${answer.title}${answer.draft ? ' (DRAFT)' : ''}`,
    '',
    ...tabRows(answer.tabs),
    '',
    ...table(
      answer.files.map(({ name, pages, bytes }) => [
        `  ${name}`,
        pages === 0 ? 'as it came' : counted(pages, 'page'),
        sizeInWords(bytes),
      ]),
    ),
    `Packet ${answer.packet}`,
    '',
    ...answer.notes.flatMap((note) => wrapped(note, 2)),
    ...(answer.notes.length > 0 ? [''] : []),
    ...findingsText(answer.findings),
  ]
    .join('\n')
    .trimEnd();
}

export function planText(plan: RequestAnswer<'plan'>): string {
  return [
    `${plan.title}${plan.draft ? ' (DRAFT)' : ''}, for ${plan.recipient}`,
    '',
    ...tabRows(plan.tabs),
    '',
    ...plan.notes.flatMap((note) => wrapped(note, 2)),
    ...findingsText(plan.findings),
  ]
    .join('\n')
    .trimEnd();
}
