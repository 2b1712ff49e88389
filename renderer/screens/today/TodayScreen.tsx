import type { TodayAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import { savePaper } from '../../state/writing.ts';
import type { ScreenProps } from '../screen-props.ts';
import { Amiss } from './Amiss.tsx';
import { Beginning } from './Beginning.tsx';
import { Corrections } from './Corrections.tsx';
import { Errands } from './Errands.tsx';
import { Happened } from './Happened.tsx';
import { Lapses } from './Lapses.tsx';
import { NotYet } from './NotYet.tsx';
import { SlipHead } from './SlipHead.tsx';
import { Soon } from './Soon.tsx';
import { Waiting } from './Waiting.tsx';
import { slipInWords } from './words.ts';
import './today.css';

/** The day's copy of the lot that could not be made: a backup elsewhere is due, or the lot is to be mended. */
function Troubles({ answer: { troubles } }: { readonly answer: TodayAnswer }) {
  return troubles.map((trouble) => (
    <div className="no-print" key={trouble.message}>
      <Trouble error={trouble} />
      {trouble.asks === 'mending' ? null : (
        <p className="small">
          Until it works again, <a href={addressOf('history')}>back up as a bundle</a> onto another disk.
        </p>
      )}
    </div>
  ));
}

function Slip({ answer }: { readonly answer: TodayAnswer }) {
  return (
    <div className="today">
      <Troubles answer={answer} />
      <div className="today-slip">
        <SlipHead answer={answer} />
        <div className="today-page">
          <div className="today-first">
            <Beginning answer={answer} />
            <Amiss rows={answer.amiss} today={answer.day} />
          </div>
          <div className="today-trips">
            <Errands answer={answer} />
            <Corrections rows={answer.corrections} />
            <Soon rows={answer.soon} today={answer.day} />
          </div>
        </div>
        <div className="today-stub">
          <Waiting answer={answer} />
          <NotYet holds={answer.holds} />
          <Lapses />
          <Happened answer={answer} />
        </div>
      </div>
    </div>
  );
}

/** One slip of paper: what can be done today, in order, with what to carry. */
export function TodayScreen(_props: ScreenProps) {
  const today = useAnswer('today', {});
  return (
    <>
      <header className="today-head">
        <div>
          <h1>Today</h1>
          <p className="lead">{today.answer === undefined ? 'What to do next.' : slipInWords(today.answer)}</p>
        </div>
        <div className="today-acts">
          <Button onPress={() => void savePaper({ sort: 'phone-list' })}>Save the phone list</Button>
          <Button onPress={() => window.print()}>Print this slip</Button>
        </div>
      </header>
      <Answered of={today}>{(answer) => <Slip answer={answer} />}</Answered>
    </>
  );
}
