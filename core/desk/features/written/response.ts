import type { VisitComment } from '../../../store/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import type { PaperBlock } from '../../../typeset/sheets/paper-blocks.ts';
import { type Day, dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { Paper } from '../../../vocabulary/lot.ts';
import type { Errand } from '../../../vocabulary/practice.ts';
import { entryIn } from '../../named.ts';
import { officeTitle, subjectTitle, titleFor } from '../asked.ts';
import { errandMeant } from './inspection-day.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';
import { visitsOf } from './recorded.ts';

/** Sheets an answer names: "sheet A-2", "sheets S1 and S2". Common practice of numbering sheets, no source. */
export function sheetsNamed(answer: string): string {
  const found = [
    ...answer.matchAll(/\bsheets?\s+((?:[A-Z]{1,3}-?\d+(?:\.\d+)?)(?:\s*(?:,|and|&)\s*[A-Z]{1,3}-?\d+(?:\.\d+)?)*)/gi),
  ];
  return found.map((match) => match[1] ?? '').join(', ');
}

/** Papers an answer names, by their number or their title. */
function evidenceNamed(answer: string, papers: readonly Paper[]): readonly string[] {
  const text = answer.toLowerCase();
  return papers.flatMap((paper) => {
    // Short numbers ("3") stand in any sentence.
    const hit = paper.editions.findLast(({ number = '' }) => number.length > 3 && text.includes(number.toLowerCase()));
    if (hit !== undefined) return [`${paper.title} ${hit.number}`];
    return paper.title.length > 3 && text.includes(paper.title.toLowerCase()) ? [paper.title] : [];
  });
}

/** What the errand asks for that came in after they sent it back. */
function newPapers(errand: Errand, since: Day, { asked }: PaperFrame): readonly (readonly string[])[] {
  const kinds = new Set(errand.needs.flatMap((need) => need.kinds));
  return asked.lot.papers
    .filter(({ kind }) => kinds.has(kind) && asked.practice.papers[kind]?.private !== true)
    .flatMap((paper) =>
      paper.editions
        .filter(({ received }) => received >= since && received <= asked.day)
        .map(({ number, revision, issued }) => [
          paper.title,
          [number, revision === undefined ? undefined : `revision ${revision}`].filter(Boolean).join(', '),
          issued === undefined ? '' : dayInWords(issued),
        ]),
    );
}

/** The paper named as evidence, else those the answer speaks of. */
function evidenceWords({ evidence, answer = '' }: VisitComment, { asked }: PaperFrame): string {
  const named = evidence === undefined ? undefined : entryIn(asked.lot, evidence);
  if (named === undefined) return evidenceNamed(answer, asked.lot.papers).join('\n');
  return [named.paper.title, named.edition.number, named.edition.revision].filter(Boolean).join(' ');
}

function commentRow(comment: VisitComment, frame: PaperFrame): readonly string[] {
  const { number, text, answer, answered } = comment;
  if (answer === undefined) return [number, text, paperWording.response.open, '', ''];
  const day = answered === undefined ? '' : ` (${dayInWords(answered)})`;
  return [number, text, `${answer}${day}`, sheetsNamed(answer), evidenceWords(comment, frame)];
}

const columns = [
  { head: 'no.', share: 1.4, face: 'mono' },
  { head: 'your comment', share: 8 },
  { head: 'our answer', share: 8 },
  { head: 'sheet', share: 2.6, face: 'mono' },
  { head: 'evidence', share: 5 },
] as const;

/** Every comment of the last time they sent it back, with its answer, the sheet and what shows it. */
export function response(frame: PaperFrame): PaperDraft {
  const { asked, at, wanted } = frame;
  const { errand, subject } = errandMeant(frame);
  const words = paperWording.response;
  const visit = visitsOf(asked, errand.id, subject).findLast(({ id }) => at.lot.comments(id).length > 0);
  if (visit === undefined) {
    throw new LotfileError('not found', `"${errand.title}" was never sent back with comments.`, {
      about: errand.title,
      next: 'Record the visit with their comments first.',
    });
  }
  const comments = at.lot.comments(visit.id);
  const open = comments.filter(({ answer }) => answer === undefined).length;
  const came = newPapers(errand, visit.day, frame);
  const since: readonly PaperBlock[] =
    came.length === 0
      ? []
      : [
          { block: 'heading', text: words.since },
          { block: 'space' },
          {
            block: 'table',
            columns: [
              { head: 'paper', share: 8, face: 'bold' },
              { head: 'number', share: 6, face: 'mono' },
              { head: 'dated', share: 4 },
            ],
            rows: came,
          },
        ];
  const recipient = wanted.recipient ?? officeTitle(asked.practice, errand.office);
  return {
    name: `response ${errand.id}`,
    own: false,
    kicker: words.kicker,
    title: `Response: ${titleFor(errand.packetTitle ?? errand.title, subjectTitle(asked.lot, subject))}`,
    recipient,
    draft: open > 0,
    blocks: [
      {
        block: 'letter',
        lines: [`${recipient}: your comments of ${dayInWords(visit.day)}.`, wanted.words ?? ''].filter(
          (line) => line !== '',
        ),
      },
      { block: 'table', columns, rows: comments.map((comment) => commentRow(comment, frame)) },
      ...since,
      { block: 'sign', fields: [paperWording.extension.sign, paperWording.extension.day] },
    ],
    notes:
      open === 0 ? [] : [`${open} of ${comments.length} ${open === 1 ? 'is' : 'are'} not answered yet: it is a DRAFT.`],
  };
}
