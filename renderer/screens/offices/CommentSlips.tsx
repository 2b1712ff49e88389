import { useState } from 'react';
import type { BackRow } from '../../../core/desk/contract/screen-answers.ts';
import type { CommentRow } from '../../../core/desk/contract/shown-rows.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { PaperPick } from '../../kit/PaperPick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';

/** What was done about a comment, and the paper that shows it. */
export function AnswerSlip({ comment, onClose }: { readonly comment: CommentRow; readonly onClose: () => void }) {
  const [text, setText] = useState('');
  const [evidence, setEvidence] = useState<string>();
  const answer = async (): Promise<void> => {
    const shown = evidence === undefined ? {} : { evidence };
    const said = { comment: comment.comment, text: text.trim(), ...shown };
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
      <PaperPick label="The paper that shows it, where one does" value={evidence} onChange={setEvidence} />
    </Slip>
  );
}

/** A visit they left comments with; where it isn't named, the errand's newest is meant. */
export type CommentedRow = Pick<BackRow, 'errand' | 'subject' | 'title' | 'comments'> & {
  readonly visit?: string | undefined;
};

export interface CommentSlipProps {
  readonly row: CommentedRow;
  /** The one to correct; undefined: one more. */
  readonly comment?: CommentRow | undefined;
  readonly onClose: () => void;
}

/** A comment as the office numbered it: its number, its words, until when. */
export function CommentSlip({ row, comment, onClose }: CommentSlipProps) {
  const [number, setNumber] = useState(comment?.number ?? '');
  const [text, setText] = useState(comment?.text ?? '');
  const [due, setDue] = useState<Day | undefined>(comment?.due);
  const ready = text.trim() !== '' && (comment === undefined || number.trim() !== '');
  const note = async (): Promise<void> => {
    const said = { text: text.trim(), due, ...(number.trim() === '' ? {} : { number: number.trim() }) };
    const which = comment === undefined ? { errand: row.errand, visit: row.visit } : { row: comment.comment };
    const reply = await perform('comment', { ...which, ...said }, { say: 'Noted their comment.' });
    if (reply.ok) onClose();
  };
  const remove = async (): Promise<void> => {
    if (comment === undefined) return;
    const reply = await perform('remove-comment', { comment: comment.comment }, { say: 'Took the comment away.' });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={comment === undefined ? `One more comment on: ${row.title}` : `Comment ${comment.number}`}
      open
      onClose={onClose}
      foot={
        <>
          <Button as="stamp" disabled={!ready} onPress={() => void note()}>
            Note it
          </Button>
          {comment === undefined ? null : (
            <Button as="word" onPress={() => void remove()}>
              take it away
            </Button>
          )}
        </>
      }
    >
      <Field label="Their number" value={number} onChange={setNumber} placeholder="for example: S-3" />
      <Field label="Their words" value={text} onChange={setText} lines />
      <DayField label="Answer by, where they said so" value={due} onChange={setDue} />
    </Slip>
  );
}
