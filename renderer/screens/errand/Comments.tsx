import { useState } from 'react';
import type { CommentRow } from '../../../core/desk/contract/shown-rows.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { perform } from '../../state/doing.ts';
import { savePaper } from '../../state/writing.ts';
import type { Sight } from './errand-model.ts';

function Comment({ row }: { readonly row: CommentRow }) {
  const [text, setText] = useState('');
  const answer = (): void => {
    const said = text.trim();
    if (said !== '') {
      void perform(
        'answer-comment',
        { comment: row.comment, text: said },
        { say: `Comment ${row.number} answered: ${said}` },
      );
    }
  };
  return (
    <li className="errand-comment">
      <p>
        <b className="errand-comment-number">{row.number}</b> {row.text}{' '}
        <span className="pencil small">
          {dayInWords(row.day)}
          {row.due === undefined ? '' : `, answer by ${dayInWords(row.due)}`}
        </span>
      </p>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          answer();
        }}
      >
        <Field label={`Your answer to comment ${row.number}`} value={text} onChange={setText} />
        <Button submit disabled={text.trim() === ''}>
          Answered
        </Button>
      </form>
    </li>
  );
}

const headings = {
  'sent back': 'What they sent it back with',
  'turned away': 'What they turned it away for',
  'not passed': 'What they did not pass',
} as const;

/** The numbered comments they sent it back with, each to be answered. */
export function Comments({ sight }: { readonly sight: Sight }) {
  const { comments } = sight.answer;
  if (comments.length === 0) return null;
  return (
    <section className="errand-comments">
      <h2>{headings[sight.answer.reading.cameBack ?? 'sent back']}</h2>
      <ol>
        {comments.map((row) => (
          <Comment key={row.comment} row={row} />
        ))}
      </ol>
      <Button
        as="word"
        small
        onPress={() => void savePaper({ sort: 'response', ...sight.target })}
        label="Save the response to their comments"
      >
        Save the response to their comments
      </Button>
    </section>
  );
}
