import { useState } from 'react';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { SampleName } from '../../../core/vocabulary/sample-names.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { beginWork } from '../../state/doing.ts';
import { openFolder, sampleKey } from '../../state/lot.ts';

async function openSample(state: SampleName): Promise<ErrorShape | undefined> {
  const end = beginWork('sample-lot', 'Laying out the sample lot');
  try {
    const reply = await port.act('sample-lot', { state });
    if (!reply.ok) return reply.error;
    return await openFolder(reply.answer.folder, { day: reply.answer.day, screen: 'today', key: sampleKey(state) });
  } finally {
    end();
  }
}

/** The same lot at other points of its way: what one opens, and what is to be seen there. */
const others: readonly { readonly state: SampleName; readonly title: string; readonly say: string }[] = [
  {
    state: 'first-month',
    title: 'its first month',
    say: 'a deed, a ticket that lasts days, and much that nobody knows yet',
  },
  {
    state: 'framing',
    title: 'framing that was not passed',
    say: 'new plans, a second framer, a permit that lapsed',
  },
  {
    state: 'final',
    title: 'the week of the final',
    say: 'a punch list, the change of insurance, the last draw',
  },
];

/** The invented lot, to look around in before one has papers of one's own. */
export function SampleOffer() {
  const [busy, setBusy] = useState(false);
  const [error, setError] = useState<ErrorShape>();
  const open = async (state: SampleName): Promise<void> => {
    setBusy(true);
    setError(await openSample(state));
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
        <Button disabled={busy} onPress={() => void open('permit')}>
          {busy ? 'Laying it out ...' : 'Open the sample lot'}
        </Button>
      </p>
      <p>The same lot stands at three other points of its way:</p>
      <ul className="first-samples">
        {others.map(({ state, title, say }) => (
          <li key={state}>
            <Button as="word" disabled={busy} onPress={() => void open(state)} label={`The sample lot in ${title}`}>
              {title}
            </Button>
            <span className="small pencil">{say}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
