import { useState } from 'react';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { beginWork } from '../../state/doing.ts';
import { openFolder, sampleKey } from '../../state/lot.ts';

async function openSample(): Promise<ErrorShape | undefined> {
  const end = beginWork('sample-lot', 'Laying out the sample lot');
  try {
    const reply = await port.act('sample-lot', {});
    if (!reply.ok) return reply.error;
    return await openFolder(reply.answer.folder, { day: reply.answer.day, screen: 'today', key: sampleKey });
  } finally {
    end();
  }
}

/** The invented lot, to look around in before one has papers of one's own. */
export function SampleOffer() {
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<ErrorShape>();
  const open = async (): Promise<void> => {
    setBusy(true);
    setError(await openSample());
    setBusy(false);
  };
  return (
    <section aria-labelledby="sample-lot">
      <h2 id="sample-lot">Look around first</h2>
      <p>
        The sample lot is invented: a house on Heron Lane a few days before its building permit, with one paper missing
        and a few that disagree. Try anything in it.
      </p>
      {error === undefined ? null : <Trouble error={error} />}
      <p>
        <Button disabled={busy} onPress={() => void open()}>
          {busy ? 'Laying it out ...' : 'Open the sample lot'}
        </Button>
      </p>
    </section>
  );
}
