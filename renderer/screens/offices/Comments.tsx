import { useState } from 'react';
import type { CommentRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';

function AnswerSlip({ comment, onClose }: { readonly comment: CommentRow; readonly onClose: () => void }) {
  const [text, setText] = useState('');
  const answer = async (): Promise<void> => {
    const said = { comment: comment.comment, text: text.trim() };
    const reply = await perform('answer-comment', said, { say: `Comment ${comment.number} answered.` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={`Comment ${comment.number}`}
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={text.trim() === ''} onPress={() => void answer()}>
          Note the answer
        </Button>
      }
    >
      <p>{comment.text}</p>
      <Field
        label="What was done about it"
        value={text}
        onChange={setText}
        lines
        autoFocus
        hint="Name the sheet and the revision."
      />
    </Slip>
  );
}

/** What they sent it back with, numbered as they numbered it, each with its answer. */
export function Comments({ comments }: { readonly comments: readonly CommentRow[] }) {
  const [open, setOpen] = useState<CommentRow>();
  return (
    <ol className="office-comments">
      {comments.map((comment) => (
        <li key={comment.comment}>
          {comment.number}. {comment.text}{' '}
          {comment.answer === undefined ? (
            <Button as="word" small onPress={() => setOpen(comment)} label={`Answer comment ${comment.number}`}>
              answer
            </Button>
          ) : (
            <span className="small answered">
              answered{comment.answered === undefined ? '' : ` ${dayInWords(comment.answered)}`}: {comment.answer}
            </span>
          )}
        </li>
      ))}
      {open === undefined ? null : <AnswerSlip comment={open} onClose={() => setOpen(undefined)} />}
    </ol>
  );
}
