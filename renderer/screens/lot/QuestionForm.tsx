import { useState } from 'react';
import { Button as PlainButton } from 'react-aria-components/Button';
import { Group } from 'react-aria-components/Group';
import type { AskedQuestion } from '../../../core/desk/contract/answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { Answer, FactSort } from '../../../core/vocabulary/facts.ts';
import { papersSay } from '../../../core/vocabulary/in-words.ts';
import { factInWords } from '../../../core/vocabulary/said-facts.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
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

interface OptionsProps {
  readonly ask: string;
  readonly options: readonly string[];
  readonly said: string;
  readonly onSay: (option: string) => void;
}

/** Each choice notes itself: pressed, it is said. Not radio buttons, which arrows would already choose. */
function Options({ ask, options, said, onSay }: OptionsProps) {
  return (
    <Group className="choices" aria-label={ask}>
      {options.map((option, at) => (
        <PlainButton
          key={option}
          className="choice"
          autoFocus={said === '' ? at === 0 : option === said}
          aria-pressed={option === said}
          onPress={() => onSay(option)}
        >
          {option}
        </PlainButton>
      ))}
    </Group>
  );
}

export interface QuestionFormProps {
  readonly question: AskedQuestion;
  /** Another box waits behind this one. */
  readonly goesOn: boolean;
  readonly onDone: () => void;
}

/** One question of the card: why it is asked, where the answer is found, and "don't know yet" as an answer. */
export function QuestionForm({ question, goesOn, onDone }: QuestionFormProps) {
  const [text, setText] = useState(saidBefore(question.answer));
  const [error, setError] = useState<ErrorShape>();
  const options = optionsFor(question);
  const answer = async (said: string): Promise<void> => {
    const manner = { say: `${question.ask} ${said}`, quiet: true };
    const reply = await perform('answer', { question: question.id, answer: said }, manner);
    if (reply.ok) onDone();
    else setError(reply.error);
  };
  const type = (now: string): void => {
    setText(now);
    setError(undefined);
  };
  return (
    <form
      className="lot-form"
      onSubmit={(event) => {
        event.preventDefault();
        if (text.trim() !== '') void answer(asWritten(question.sort, text));
      }}
    >
      <p>{question.why}</p>
      {question.told.map((told) => (
        <p key={told.answer} className="lot-told">
          {papersSay(told.papers, told.say)}{' '}
          <Button small onPress={() => void answer(told.answer)}>
            Note {told.say}
          </Button>
        </p>
      ))}
      {options.length > 0 ? (
        <Options ask={question.ask} options={options} said={text} onSay={(said) => void answer(said)} />
      ) : (
        <Field label="Your answer" value={text} onChange={type} hint={hints[question.sort]} autoFocus />
      )}
      {error === undefined ? null : <Trouble error={error} />}
      <p className="small pencil">Where to find it: {question.where}</p>
      <div className="lot-foot">
        {options.length > 0 ? null : (
          <Button as="stamp" submit disabled={text.trim() === ''}>
            {goesOn ? 'Note and next' : 'Note it'}
          </Button>
        )}
        <Button onPress={() => void answer(unknown)}>I don’t know yet</Button>
        {goesOn ? (
          <Button as="word" onPress={onDone}>
            leave it, and next
          </Button>
        ) : null}
      </div>
    </form>
  );
}
