import { useState } from 'react';
import type { AskedQuestion } from '../../../core/desk/contract/answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { Answer, FactSort } from '../../../core/vocabulary/facts.ts';
import { factInWords } from '../../../core/vocabulary/said-facts.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { perform } from '../../state/doing.ts';

const unknown = "don't know yet";

/** How each sort of answer is written; shown under the field. */
const hints: Partial<Readonly<Record<FactSort, string>>> = {
  count: 'A whole number, such as 3.',
  number: 'A number, such as 4.5.',
  area: 'Square feet, such as 1,850.',
  volume: 'Cubic feet, such as 14,800.',
  length: 'Feet, such as 1.5.',
  money: 'US dollars, such as 310,000.',
  percent: 'Percent, such as 80.',
  elevation: 'Feet and the datum as printed, such as 101.5 ft NAVD 88.',
};

function optionsFor({ sort, choices }: AskedQuestion): readonly string[] {
  if (sort === 'yes or no') return ['yes', 'no'];
  return choices;
}

function saidBefore(answer: Answer | undefined): string {
  return answer === undefined || answer.sort === unknown ? '' : factInWords(answer);
}

/** What a person writes for money may lack its currency. */
function asWritten(sort: FactSort, text: string): string {
  return sort === 'money' && /^[\d.,\s]+$/.test(text) ? `${text.trim()} usd` : text.trim();
}

export interface QuestionSlipProps {
  readonly question: AskedQuestion;
  readonly onClose: () => void;
}

/** One question of the card: why it is asked, where the answer is found, and "don't know yet" as an answer. */
export function QuestionSlip({ question, onClose }: QuestionSlipProps) {
  const [text, setText] = useState(saidBefore(question.answer));
  const [error, setError] = useState<ErrorShape>();
  const options = optionsFor(question);
  const answer = async (said: string): Promise<void> => {
    const reply = await perform('answer', { question: question.id, answer: said }, { say: 'Noted.', quiet: true });
    if (reply.ok) onClose();
    else setError(reply.error);
  };
  return (
    <Slip
      title={question.ask}
      open
      onClose={onClose}
      foot={
        <>
          <Button as="stamp" disabled={text.trim() === ''} onPress={() => void answer(asWritten(question.sort, text))}>
            Note this answer
          </Button>
          <Button onPress={() => void answer(unknown)}>I don’t know yet</Button>
        </>
      }
    >
      <p>{question.why}</p>
      {options.length > 0 ? (
        <Choices
          label={question.ask}
          labelUnseen
          options={options.map((id) => ({ id, title: id }))}
          value={text === '' ? undefined : text}
          onChange={setText}
        />
      ) : (
        <Field label="Your answer" value={text} onChange={setText} hint={hints[question.sort]} autoFocus />
      )}
      {error === undefined ? null : <Trouble error={error} />}
      <p className="small pencil">Where to find it: {question.where}</p>
    </Slip>
  );
}
