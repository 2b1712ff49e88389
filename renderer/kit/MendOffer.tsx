import { useState } from 'react';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';
import { port } from '../client/port.ts';
import { beginWork } from '../state/doing.ts';
import { openFolder, takeUp } from '../state/lot.ts';
import { useLot } from '../state/session.ts';
import { tellTrouble } from '../state/telling.ts';
import { Button } from './Button.tsx';

/** Lets go of the lot here; a handle that is known no more was let go of before. */
async function letGo(handle: string | undefined): Promise<ErrorShape | undefined> {
  if (handle === undefined) return undefined;
  const reply = await port.ask('close-lot', {}, { lot: handle });
  return reply.ok || reply.error.code === 'not found' ? undefined : reply.error;
}

/** Closes the lot where it is open here, mends it, opens it again and tells what was read and what is gone. */
async function mend(folder: string, handle: string | undefined): Promise<ErrorShape | undefined> {
  const end = beginWork('mend', 'Mending the lot');
  try {
    const held = await letGo(handle);
    if (held !== undefined) return held;
    const reply = await port.ask('mend', { folder }, {});
    if (!reply.ok) {
      if (handle === undefined) return reply.error;
      // The lot is taken up again as it was; what was on view is read anew, so this is told beside it.
      tellTrouble({ ...reply.error, about: undefined });
      await takeUp();
      return undefined;
    }
    const error = await openFolder(folder, { screen: 'today' });
    if (error !== undefined) return error;
    const { title, notes } = reply.answer;
    // One notice, and it stays: what is gone must not go by itself.
    const told = notes.filter((note) => !note.startsWith('Run verify'));
    const then = 'Now check every file, and make a backup: both are under What was done.';
    tellTrouble({ code: 'lot damaged', message: `${title} was mended.`, next: [...told, then].join(' ') });
    return undefined;
  } finally {
    end();
  }
}

/** Beside the sentence that a lot is damaged: what mending does, what it can't, and the button. */
export function MendOffer({
  folder: given,
  otherwise,
}: {
  readonly folder?: string | undefined;
  /** What to do next where this lot can't be mended from here. */
  readonly otherwise?: string | undefined;
}) {
  const key = useLot((state) => state.key);
  const handle = useLot((state) => state.handle);
  const host = useLot((state) => state.host);
  const [error, setError] = useState<ErrorShape>();
  const [busy, setBusy] = useState(false);
  const folder = given ?? host?.lots.find((lot) => lot.key === key)?.folder;
  if (folder === undefined) return otherwise === undefined ? null : <p>{otherwise}</p>;
  const run = async (): Promise<void> => {
    setBusy(true);
    setError(await mend(folder, given === undefined ? handle : undefined));
    setBusy(false);
  };
  return (
    <div className="mend-offer">
      <p className="small">
        Mending builds its list of papers, visits and answers anew: from all that can still be read, the rest from the
        copy made on the last day you worked in it. The damaged one is kept beside it. Your files in “originals” are not
        touched. What was written after that copy and can’t be read is gone, and you are told what it is.
      </p>
      <Button disabled={busy} onPress={() => void run()}>
        {busy ? 'Mending ...' : 'Mend this lot'}
      </Button>
      {error === undefined ? null : (
        <p className="small" role="alert">
          {error.message} {error.next}
        </p>
      )}
    </div>
  );
}
