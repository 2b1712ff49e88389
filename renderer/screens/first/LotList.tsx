import { useState } from 'react';
import type { HostCard, LotOffered } from '../../../core/desk/contract/host-acts.ts';
import type { ShownPlace } from '../../../core/desk/contract/table-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { Where } from '../../kit/Where.tsx';
import { openFolder, readHost } from '../../state/lot.ts';

interface Failed {
  readonly folder: string;
  readonly error: ErrorShape;
}

/** A lot held by another program can be taken over, but only on the person's word. */
function OpenTrouble({ failed, onRetry }: { readonly failed: Failed; readonly onRetry: () => void }) {
  return (
    <div>
      <Trouble error={failed.error} folder={failed.folder} />
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

/** "thistle-fork-2, in Lotfile": the folder's own name. */
function folderOf({ place }: Pick<LotOffered, 'place'>): string {
  return place.split(',')[0] ?? place;
}

interface LotRowProps {
  readonly lot: LotOffered;
  /** Another one bears the same name: the folder's tells them apart. */
  readonly namesake: boolean;
  readonly onOpen: () => void;
}

function LotRow({ lot, namesake, onOpen }: LotRowProps) {
  const called = namesake ? `${lot.title}, folder ${folderOf(lot)}` : lot.title;
  const forget = async (): Promise<void> => {
    await port.act('forget-lot', { key: lot.key });
    await readHost();
  };
  return (
    <li>
      <div className="which">
        <p className="slab">{called}</p>
        <p className="small pencil">
          {lot.gone ? 'The folder is not where it was: ' : ''}
          {lot.place}, opened {dayInWords(lot.lastOpened)}
        </p>
      </div>
      <div className="acts">
        {lot.gone ? null : (
          <Button onPress={onOpen} label={`Open ${called}`}>
            Open
          </Button>
        )}
        <Button as="word" small onPress={() => void forget()} label={`leave out ${called}`}>
          leave out
        </Button>
      </div>
    </li>
  );
}

type Found = HostCard['found'][number];

interface FoundRowProps {
  readonly lot: Found;
  /** Why it stands apart from the list: "not in your list". */
  readonly why?: string;
  readonly onOpen: () => void;
}

function FoundRow({ lot, why, onOpen }: FoundRowProps) {
  return (
    <li>
      <div className="which">
        <p className="slab">{lot.title}</p>
        <p className="small pencil">
          {lot.place}
          {why === undefined ? '' : `, ${why}`}
        </p>
      </div>
      <div className="acts">
        <Button onPress={onOpen} label={`Open ${lot.title}`}>
          Open
        </Button>
      </div>
    </li>
  );
}

interface LeftOutProps {
  readonly lots: HostCard['leftOut'];
  readonly onOpen: (lot: Found) => void;
}

/** What was taken off the list is a step away, not gone: opening one puts it back. */
function LeftOut({ lots, onOpen }: LeftOutProps) {
  const [shown, show] = useState(false);
  if (lots.length === 0) return null;
  return (
    <div className="first-left-out">
      <Button as="word" small onPress={() => show(!shown)}>
        {shown ? 'Fold the lots left out' : `Lots left out: ${lots.length}`}
      </Button>
      {shown ? (
        <>
          <p className="small pencil">Opening one puts it back on your list.</p>
          <ul className="first-lots">
            {lots.map((lot) => (
              <FoundRow key={lot.folder} lot={lot} onOpen={() => onOpen(lot)} />
            ))}
          </ul>
        </>
      ) : null}
    </div>
  );
}

/** A browser names no folders of this computer: the lot comes to where lots lie, or the program is told at its start. */
function Elsewhere({ folder }: { readonly folder: ShownPlace }) {
  return (
    <p className="small pencil">
      A lot folder that lies elsewhere: move it into <Where place={folder} /> and load this page again, or start with{' '}
      <code className="mono">npm start -- --lot FOLDER</code>.
    </p>
  );
}

/** The lots opened on this computer before, newest first, and others that lie there; on the desktop any other folder too. */
export function LotList({ host: { lots, found, leftOut, dialogs, newLotsFolder } }: { readonly host: HostCard }) {
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
      <h2 id="open-lot">Open a lot of this computer</h2>
      {failed === undefined ? null : <OpenTrouble failed={failed} onRetry={() => void open(failed.folder, true)} />}
      <ul className="first-lots">
        {lots.map((lot) => (
          <LotRow
            key={lot.key}
            lot={lot}
            namesake={[...lots, ...found].some((one) => one.folder !== lot.folder && one.title === lot.title)}
            onOpen={() => void open(lot.folder)}
          />
        ))}
        {found.map((lot) => (
          <FoundRow key={lot.folder} lot={lot} why="not in your list" onOpen={() => void open(lot.folder)} />
        ))}
      </ul>
      <LeftOut lots={leftOut} onOpen={(lot) => void open(lot.folder)} />
      {dialogs ? (
        <p>
          <Button onPress={() => void choose()}>Open another folder ...</Button>
        </p>
      ) : (
        <Elsewhere folder={newLotsFolder} />
      )}
    </section>
  );
}
