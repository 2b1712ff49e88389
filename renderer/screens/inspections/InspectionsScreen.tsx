import { useEffect } from 'react';
import type { InspectionsAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { useAnswer } from '../../state/asked.ts';
import { savePaper } from '../../state/writing.ts';
import { Coming } from './Coming.tsx';
import { Corrections } from './Corrections.tsx';
import { Gates } from './Gates.tsx';
import { IdleClocks } from './IdleClocks.tsx';
import { putAway } from './inspections-store.ts';
import { NextOne } from './NextOne.tsx';
import { Offered } from './Offered.tsx';
import { nextOf } from './order.ts';
import { Recorded } from './Recorded.tsx';
import { Slips } from './Slips.tsx';
import './inspections.css';

function Sheet({ answer }: { readonly answer: InspectionsAnswer }) {
  const next = nextOf(answer);
  return (
    <div className="inspections">
      <Gates answer={answer} />
      <IdleClocks rows={answer.idle} />
      <NextOne row={next} any={answer.rows.length > 0} />
      <Corrections rows={answer.corrections} />
      <Coming rows={answer.rows.filter((row) => row !== next && row.state !== 'settled')} />
      <Recorded rows={answer.rows.filter(({ state }) => state === 'settled')} />
      <Offered rows={answer.offered} />
      <Slips />
    </div>
  );
}

/** Everything somebody comes out to look at: what is next, what it holds, what lies ready, what is recorded. */
export function InspectionsScreen() {
  const answer = useAnswer('inspections', {});
  useEffect(() => putAway, []);
  return (
    <>
      <header>
        <div>
          <h1>Inspections</h1>
          <p className="lead">
            What they look at, what waits for it, and what is recorded. Days are the offices’ alone; yours for building
            come on top.
          </p>
        </div>
        <Button onPress={() => void savePaper({ sort: 'inspection-log' })}>Save the inspection log</Button>
      </header>
      <Answered of={answer}>{(found) => <Sheet answer={found} />}</Answered>
    </>
  );
}
