import type { VisitComment } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { editionNamed, errandNamed } from '../named.ts';
import { needed } from './cost-named.ts';
import { withoutNumber } from './numbered.ts';
import { acted } from './record-card.ts';

/** Comments and corrections by their number: until when they are to be answered, and what closes each. */

/** The newest visit of an errand that was sent back, or the newest made. */
function visitFor(at: AtLot, said: { visit?: string | undefined; errand?: string | undefined }): string {
  const { visits } = at.lot.view();
  if (said.visit !== undefined) return said.visit;
  const errand = errandNamed(at.lot.practice(), needed(said.errand, 'the errand or visit they spoke of'));
  const made = visits
    .filter((visit) => visit.errand === errand.id && visit.state !== 'planned')
    .toSorted((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
  const found = made.findLast(({ state }) => state === 'sent back') ?? made.at(-1);
  if (found !== undefined) return found.id;
  throw new LotfileError('wrong use', `No visit for "${errand.title}" was made yet.`, {
    about: errand.title,
    next: 'Record the visit first: visit.',
  });
}

function commentNamed(at: AtLot, said: string): VisitComment {
  const found = at.lot.comments().find(({ id }) => String(id) === said);
  if (found !== undefined) return found;
  throw new LotfileError('not found', `There is no comment "${said}".`, {
    about: said,
    next: 'See what they sent back: with-offices.',
  });
}

export const comment = onLot(requests.comment, (said, at) => {
  const { row, number, due } = said;
  const text = said.text === undefined ? undefined : withoutNumber(said.text);
  const named = { view: at.lot.view(), practice: at.lot.practice(), day: at.day };
  const evidence = said.evidence === undefined ? undefined : editionNamed(named, said.evidence).edition.id;
  if (row !== undefined) {
    const known = commentNamed(at, row);
    const { id } = known;
    const { act } = acted(
      at,
      `Comment ${number ?? known.number} corrected${text === undefined ? '' : `: ${text}`}`,
      () => at.lot.changeComment(id, { number, text, due, evidence }),
    );
    return { act, row };
  }
  const visit = visitFor(at, said);
  const known = at.lot.comments(visit);
  const next = number ?? String(known.length + 1);
  if (known.some((each) => each.number === next)) {
    throw new LotfileError('wrong use', `There is a comment ${next} on that visit already.`, {
      about: next,
      next: 'Give it the number the office gave it.',
    });
  }
  let id = 0;
  const { act } = acted(at, `Comment ${next} noted: ${text ?? ''}`, () => {
    id = at.lot.addComment({ visit, number: next, text: needed(text, 'what they said'), due, evidence });
  });
  return { act, row: String(id) };
});

export const removeComment = onLot(requests['remove-comment'], ({ comment: said }, at) => {
  const { id, number, text } = commentNamed(at, said);
  return acted(at, `Took comment ${number} away: ${text}`, () => at.lot.removeComment(id));
});
