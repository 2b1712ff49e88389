import { useState } from 'react';
import type { ActRow, VerifyAnswer } from '../../../core/desk/contract/answers.ts';
import { momentInWords } from '../../../core/vocabulary/in-words.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { Checked } from './Checked.tsx';
import { GoingOut } from './GoingOut.tsx';
import './history.css';

const pageful = 60;
function Act({ act }: { readonly act: ActRow }) {
  const undo = (): void => void perform('undo', { act: act.act }, { say: `Taken back: ${act.title}.` });
  return (
    <li>
      <span className="small pencil">{momentInWords(act.at)}</span>
      <span className={act.undone ? 'gone' : ''}>{act.title}</span>
      {act.undone || act.lasting !== undefined ? (
        <span className="small pencil">{act.undone ? 'taken back' : act.lasting}</span>
      ) : (
        <Button as="word" small onPress={undo} label={`Take back: ${act.title}`}>
          take back
        </Button>
      )}
    </li>
  );
}

/** Everything that was done in this lot, newest first; each act that can be taken back says so. */
export function HistoryScreen() {
  const [limit, setLimit] = useState(pageful);
  const history = useAnswer('history', { limit });
  const [checked, setChecked] = useState<VerifyAnswer>();
  const verify = async (): Promise<void> => {
    const reply = await perform('verify', {}, { long: 'Checking every kept byte' });
    if (reply.ok) setChecked(reply.answer);
  };
  return (
    <>
      <header>
        <div>
          <h1>What was done</h1>
          <p className="lead">Newest first. Taking back is itself an act, so nothing is ever lost.</p>
        </div>
        <Button onPress={() => void verify()}>Check every file</Button>
      </header>
      {checked === undefined ? null : <Checked answer={checked} onClose={() => setChecked(undefined)} />}
      <GoingOut />
      <h2>Acts</h2>
      <Answered of={history}>
        {({ acts }) => (
          <>
            <ol className="history-rows">
              {acts.map((act) => (
                <Act key={act.act} act={act} />
              ))}
            </ol>
            {acts.length < limit ? null : (
              <p>
                <Button onPress={() => setLimit(limit + pageful * 4)}>Show earlier ones</Button>
              </p>
            )}
          </>
        )}
      </Answered>
    </>
  );
}
