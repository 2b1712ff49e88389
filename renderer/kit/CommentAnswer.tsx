import type { CommentRow } from '../../core/desk/contract/shown-rows.ts';
import { dayInWords } from '../../core/vocabulary/days.ts';
import { addressOf } from '../state/place.ts';

/** "answered 14 Apr 2026: ...", with the paper that shows it. */
export function CommentAnswer({ comment }: { readonly comment: CommentRow }) {
  const { answer, answered, evidence } = comment;
  return (
    <span className="small answered">
      answered{answered === undefined ? '' : ` ${dayInWords(answered)}`}: {answer}
      {evidence === undefined ? null : (
        <>
          {' '}
          (<a href={addressOf('papers', evidence.paper, evidence.edition)}>{evidence.title}</a>)
        </>
      )}
    </span>
  );
}
