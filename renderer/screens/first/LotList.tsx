import { useState } from 'react';
import type { LotOffered } from '../../../core/desk/contract/host-acts.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { openFolder, readHost } from '../../state/lot.ts';

interface Failed {
  readonly folder: string;
  readonly error: ErrorShape;
}

/** A lot held by another program can be taken over, but only on the person's word. */
function OpenTrouble({ failed, onRetry }: { readonly failed: Failed; readonly onRetry: () => void }) {
  return (
    <div>
      <Trouble error={failed.error} />
      {failed.error.code === 'lot busy' ? (
        <p className="small">
          If that computer is gone for good:{' '}
          <Button as="word" small onPress={onRetry}>
            take the lot over
          </Button>
        </p>
      ) : null}
    </div>
  );
}

function LotRow({ lot, onOpen }: { readonly lot: LotOffered; readonly onOpen: () => void }) {
  const forget = async (): Promise<void> => {
    await port.act('forget-lot', { key: lot.key });
    await readHost();
  };
  return (
    <li>
      <div className="which">
        <p className="slab">{lot.title}</p>
        <p className="small pencil">
          {lot.gone ? 'The folder is not where it was: ' : ''}
          {lot.place}, opened {dayInWords(lot.lastOpened)}
        </p>
      </div>
      <div className="acts">
        {lot.gone ? null : (
          <Button onPress={onOpen} label={`Open ${lot.title}`}>
            Open
          </Button>
        )}
        <Button as="word" small onPress={() => void forget()} label={`Leave ${lot.title} out of this list`}>
          leave out
        </Button>
      </div>
    </li>
  );
}

/** The lots opened on this computer before, newest first; on the desktop any other folder too. */
export function LotList({ lots, dialogs }: { readonly lots: readonly LotOffered[]; readonly dialogs: boolean }) {
  const [failed, setFailed] = useState<Failed>();
  const open = async (folder: string, takeOver = false): Promise<void> => {
    const error = await openFolder(folder, { takeOver, screen: 'today' });
    setFailed(error === undefined ? undefined : { folder, error });
  };
  const choose = async (): Promise<void> => {
    const chosen = await port.act('choose-lot', {});
    if (chosen.ok && chosen.answer.folder !== undefined) await open(chosen.answer.folder);
  };
  return (
    <section aria-labelledby="open-lot">
      <h2 id="open-lot">Open a lot</h2>
      {failed === undefined ? null : <OpenTrouble failed={failed} onRetry={() => void open(failed.folder, true)} />}
      <ul className="first-lots">
        {lots.map((lot) => (
          <LotRow key={lot.key} lot={lot} onOpen={() => void open(lot.folder)} />
        ))}
      </ul>
      {dialogs ? (
        <p>
          <Button onPress={() => void choose()}>Open another folder ...</Button>
        </p>
      ) : null}
    </section>
  );
}
