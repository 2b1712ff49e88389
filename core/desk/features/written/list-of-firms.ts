import { type Asked, currentEdition, indexLot, paperStateOf, validityOf } from '../../../readiness/index.ts';
import { paperWording } from '../../../typeset/paper-wording.ts';
import { type Day, dayInWords } from '../../../vocabulary/days.ts';
import { validityInWords } from '../../../vocabulary/in-words.ts';
import type { Subject } from '../../../vocabulary/lot.ts';
import type { PaperKind } from '../../../vocabulary/practice.ts';
import type { PaperDraft, PaperFrame } from './paper-frame.ts';

function daysOf({ from, to }: Subject): string {
  const word = (day: Day | undefined, none: string): string => (day === undefined ? none : dayInWords(day));
  return `${word(from, 'not noted')} to ${word(to, 'still on')}`;
}

/** Number and how long it is good, or that it is not in hand. */
function paperWords(kind: PaperKind, subject: Subject, asked: Asked): string {
  const edition = currentEdition({ kind: kind.id, subject: subject.id }, asked);
  if (edition === undefined) return `${kind.title}: ${paperWording.firms.missing}`;
  const number = edition.number === undefined ? '' : ` No. ${edition.number}`;
  return `${kind.title}${number}: ${validityInWords(validityOf(edition, asked))}`;
}

/** Firms with their trade, days, licence and certificates; never a private paper. */
export function listOfFirms({ asked, wanted }: PaperFrame): PaperDraft {
  const at = indexLot(asked);
  const kinds = Object.values(asked.practice.papers).filter((kind) => kind.each === 'engagement' && !kind.private);
  const firms = asked.lot.subjects.filter(({ sort }) => sort === 'engagement');
  const rows = firms.map((subject) => {
    const papers = kinds
      .filter(({ id }) => paperStateOf(at, { kind: id, subject: subject.id }) !== "doesn't apply")
      .filter(({ id }) => isAsked(id, asked) || currentEdition({ kind: id, subject: subject.id }, asked) !== undefined)
      .map((kind) => paperWords(kind, subject, asked));
    return [subject.firm ?? subject.title, subject.trade ?? '', daysOf(subject), papers.join('\n')];
  });
  const words = paperWording.firms;
  return {
    name: 'list of firms',
    own: false,
    kicker: words.kicker,
    title: 'List of firms',
    recipient: wanted.recipient ?? '',
    blocks:
      rows.length === 0
        ? [{ block: 'text', text: words.none }]
        : [
            {
              block: 'table',
              columns: [
                { head: 'firm', share: 5, face: 'bold' },
                { head: 'trade', share: 3 },
                { head: 'days on site', share: 5 },
                { head: 'licence and certificates', share: 11 },
              ],
              rows,
            },
            { block: 'space' },
            { block: 'text', text: words.note, quiet: true },
          ],
  };
}

/** Some errand asks for it of every firm; what comes with payments (waivers) is asked for at the payment. */
function isAsked(kind: string, asked: Asked): boolean {
  return Object.values(asked.practice.errands).some(({ needs }) =>
    needs.some((need) => need.each === 'engagement' && !need.optional && need.kinds[0] === kind),
  );
}
