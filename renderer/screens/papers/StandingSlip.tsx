import { useState } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { type StandingWord, standingWords } from '../../../core/vocabulary/lot.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';

const meaning: Readonly<Record<StandingWord, string>> = {
  received: 'They took it in and are looking at it.',
  approved: 'They approved this very edition.',
  refused: 'They said no to this edition: it doesn’t count with anybody any more.',
  revoked: 'They took it back: it doesn’t count any more.',
  closed: 'They closed the case: it ended by being done with.',
};

export interface StandingSlipProps {
  readonly paper: PagesAnswer;
  readonly onClose: () => void;
}

/** Records what an office did with this edition, and when. */
export function StandingSlip({ paper, onClose }: StandingSlipProps) {
  const today = useDay();
  const practice = useAnswer('practice', {}).answer?.practice;
  const offices = Object.values(practice?.offices ?? {}).filter(({ exists }) => exists);
  const [office, setOffice] = useState<string>();
  const [word, setWord] = useState<StandingWord>();
  const [day, setDay] = useState<Day | undefined>(today);
  const [note, setNote] = useState('');
  const say = async (): Promise<void> => {
    if (office === undefined || word === undefined || day === undefined) return;
    const officeTitle = offices.find(({ id }) => id === office)?.title ?? office;
    const noted = note.trim() === '' ? {} : { note: note.trim() };
    const reply = await perform(
      'standing',
      { edition: paper.edition, office, word, day, ...noted },
      { say: `Noted: ${officeTitle} ${word} ${paper.title}.` },
    );
    if (reply.ok) onClose();
  };
  const ready = office !== undefined && word !== undefined && day !== undefined;
  return (
    <Slip
      title={`What an office did with ${paper.title}`}
      open
      onClose={onClose}
      foot={
        <>
          <Button as="stamp" disabled={!ready} onPress={() => void say()}>
            Note it
          </Button>
          <Button onPress={onClose}>Leave it</Button>
        </>
      }
    >
      <Pick
        label="Which office"
        options={offices.map(({ id, title }) => ({ id, title }))}
        value={office}
        onChange={setOffice}
      />
      <Choices
        label="What they did"
        options={standingWords.map((id) => ({ id, title: id }))}
        value={word}
        onChange={(id) => setWord(standingWords.find((each) => each === id))}
      />
      {word === undefined ? null : <p className="small pencil">{meaning[word]}</p>}
      <DayField label="On which day" value={day} onChange={setDay} />
      <Field label="Who said it, under which number (if you know)" value={note} onChange={setNote} lines />
    </Slip>
  );
}
