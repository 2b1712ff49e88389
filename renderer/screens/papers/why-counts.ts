import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';

/** Why this edition counts, or doesn't, in one sentence. */
export function whyCounts(paper: PagesAnswer, today: Day): string {
  const { current, standings, links, issued, notApplicable } = paper;
  if (notApplicable !== undefined) return `You said it doesn’t apply: ${notApplicable}`;
  const last = standings.at(-1);
  if (current) {
    if (last?.word === 'approved') return `It counts: ${last.officeTitle} approved it on ${dayInWords(last.day)}.`;
    if (paper.editions.length > 1) return 'It counts: it is the newest that no office refused and nothing replaced.';
    return paper.state === 'lapsed' ? 'It is the one that counts, but it has lapsed.' : 'It counts.';
  }
  if (paper.awaitsApprovalOf !== undefined) {
    const now = paper.editions.find((each) => each.current);
    const which = now?.revision === undefined ? 'the one before it' : `revision ${now.revision}`;
    return `It doesn’t count yet: ${paper.awaitsApprovalOf} has not approved it, ${which} counts.`;
  }
  const replaced = links.find(({ direction, word }) => direction === 'from' && word === 'replaces');
  if (replaced !== undefined) {
    const which = replaced.number === '' ? 'a newer edition' : `number ${replaced.number}`;
    return `It doesn’t count any more: ${which}${replaced.issued === '' ? '' : `, issued ${replaced.issued},`} replaces it.`;
  }
  if (last?.word === 'refused' || last?.word === 'revoked' || last?.word === 'closed') {
    return `It doesn’t count: ${last.officeTitle} ${last.word} it on ${dayInWords(last.day)}.`;
  }
  if (issued !== undefined && issued > today)
    return `It doesn’t count yet: it is dated ${dayInWords(issued)}, after today.`;
  if (!paper.readable) return 'It doesn’t count: its pages can’t be read.';
  return paper.editions.some((each) => each.current)
    ? 'It doesn’t count: a newer edition stands in its place.'
    : 'It doesn’t count today.';
}
