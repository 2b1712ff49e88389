import { useEffect } from 'react';
import { Answered } from '../../kit/Answered.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import type { ScreenProps } from '../screen-props.ts';
import { ErrandList } from './ErrandList.tsx';
import './errand.css';
import './errand-stack.css';
import './errand-below.css';
import type { Target } from './errand-model.ts';
import { startAfresh } from './errand-store.ts';
import { OneErrand } from './OneErrand.tsx';

function Told({ target }: { readonly target: Target }) {
  const asked = { ...target };
  const answer = useAnswer('errand', asked);
  const plan = useAnswer('plan', asked);
  const practice = useAnswer('practice', {}).answer?.practice;
  useEffect(startAfresh, []);
  if (answer.answer === undefined) {
    return (
      <>
        <header>
          <h1>Errand</h1>
        </header>
        <Answered of={answer}>{() => null}</Answered>
        {answer.error === undefined ? null : <a href={addressOf('errand')}>All errands</a>}
      </>
    );
  }
  const laid = { plan: plan.answer, planTrouble: plan.error };
  return <OneErrand sight={{ target, answer: answer.answer, practice, ...laid }} />;
}

/** One errand, or without one in the address all of them. */
export function ErrandScreen({ rest }: ScreenProps) {
  const [errand = '', subject] = rest;
  if (errand === '') return <ErrandList />;
  return <Told target={subject === undefined || subject === '' ? { errand } : { errand, subject }} />;
}
