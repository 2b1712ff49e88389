import { useState } from 'react';
import type { CommentRow } from '../../../core/desk/contract/shown-rows.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { CommentAnswer } from '../../kit/CommentAnswer.tsx';
import { useDay } from '../../state/session.ts';
import { savePaper } from '../../state/writing.ts';
import { AnswerSlip, type CommentedRow, CommentSlip } from './CommentSlips.tsx';

type Open = { readonly slip: 'answer' | 'correct'; readonly comment: CommentRow } | { readonly slip: 'new' };

async function saveResponse({ errand, subject }: CommentedRow): Promise<void> {
  const which = subject === undefined ? { errand } : { errand, subject };
  await savePaper({ sort: 'response', ...which });
}

function Slips({
  row,
  open,
  onClose,
}: {
  readonly row: CommentedRow;
  readonly open: Open | undefined;
  readonly onClose: () => void;
}) {
  if (open === undefined) return null;
  if (open.slip === 'answer') return <AnswerSlip comment={open.comment} onClose={onClose} />;
  return <CommentSlip row={row} comment={open.slip === 'new' ? undefined : open.comment} onClose={onClose} />;
}

/** What they sent it back with, numbered as they numbered it, each with its deadline, its answer and what shows it. */
export function Comments({ row }: { readonly row: CommentedRow }) {
  const today = useDay();
  const [open, setOpen] = useState<Open>();
  return (
    <>
      <ol className="office-comments">
        {row.comments.map((comment) => (
          <li key={comment.comment}>
            {comment.number}. {comment.text}{' '}
            {comment.due === undefined || comment.answer !== undefined ? null : (
              <span className={comment.due < today ? 'small office-old' : 'small pencil'}>
                {comment.due < today ? 'was due' : 'answer by'} {dayInWords(comment.due)}{' '}
              </span>
            )}
            {comment.answer === undefined ? (
              <Button
                as="word"
                small
                onPress={() => setOpen({ slip: 'answer', comment })}
                label={`Answer comment ${comment.number}`}
              >
                answer
              </Button>
            ) : (
              <CommentAnswer comment={comment} />
            )}{' '}
            <Button
              as="word"
              small
              onPress={() => setOpen({ slip: 'correct', comment })}
              label={`Change comment ${comment.number}`}
            >
              change
            </Button>
          </li>
        ))}
      </ol>
      <p className="small office-comment-acts">
        <Button as="word" small onPress={() => setOpen({ slip: 'new' })} label={`One more comment on ${row.title}`}>
          one more comment
        </Button>
        {row.comments.length === 0 ? null : (
          <Button as="word" small onPress={() => void saveResponse(row)} label={`Save the response to ${row.title}`}>
            save the response
          </Button>
        )}
      </p>
      <Slips row={row} open={open} onClose={() => setOpen(undefined)} />
    </>
  );
}
