import { useState } from 'react';
import { Button } from '../kit/Button.tsx';
import { Choices } from '../kit/Choices.tsx';
import { Mark, markWords } from '../kit/Mark.tsx';
import { Slip } from '../kit/Slip.tsx';
import { lights, readLike, textSizes, useReading } from './light.ts';

const meanings: Readonly<Record<string, string>> = {
  'in hand': 'You have it and it is good.',
  awaited: 'An office or firm is working on it.',
  'not asked for': 'Nobody has been asked for it yet.',
  lapsing: 'Good today, but not for long.',
  lapsed: 'Its last good day is past.',
  replaced: 'A newer one stands in its place.',
  unreadable: 'It was kept, but can’t be read.',
  disagree: 'Two papers say different things.',
  "doesn't apply": 'Not asked of this lot.',
  'can go': 'You can go on this errand today.',
  "can't go yet": 'Something has to be brought or settled first.',
  'left with them': 'They have the papers; you wait.',
  'sent back': 'They returned it with comments, turned it away, or did not pass it.',
  settled: 'Done.',
};

const weights = [
  ['refused', 'You would be turned away, or it can’t be undone.'],
  ['questioned', 'They may object.'],
  ['ask first', 'It rests on an assumption or on something not known yet: ask before you go.'],
  ['good to know', 'Nothing to do; keep it in mind.'],
] as const;

function MarkList() {
  return (
    <dl className="legend">
      {markWords.map((word) => (
        <div key={word}>
          <dt>
            <Mark word={word} />
          </dt>
          <dd>{meanings[word]}</dd>
        </div>
      ))}
      {weights.map(([word, meaning]) => (
        <div key={word}>
          <dt>
            <div className={`finding ${word.replaceAll(' ', '-')}`}>
              <span className="weight">{word}</span>
            </div>
          </dt>
          <dd>{meaning}</dd>
        </div>
      ))}
    </dl>
  );
}

/** The marks, explained once, and how the window is read; reachable from everywhere. */
export function Legend() {
  const [shown, show] = useState(false);
  const { light, size } = useReading();
  return (
    <>
      <Button as="word" small onPress={() => show(true)}>
        Marks and reading
      </Button>
      <Slip title="Marks and reading" open={shown} onClose={() => show(false)} wide>
        <MarkList />
        <Choices
          label="Light"
          options={lights.map((id) => ({ id, title: id }))}
          value={light}
          onChange={(id) => readLike({ light: lights.find((each) => each === id) ?? 'as the system' })}
        />
        <Choices
          label="Size of letters"
          options={textSizes.map((each) => ({ id: String(each), title: `${each}%` }))}
          value={String(size)}
          onChange={(id) => readLike({ size: textSizes.find((each) => String(each) === id) ?? 100 })}
        />
        <p className="small pencil">
          Keys: / goes to the find line, Tab and arrows go everywhere, Escape puts a slip away, Ctrl+Z takes back what
          you did last.
        </p>
      </Slip>
    </>
  );
}
