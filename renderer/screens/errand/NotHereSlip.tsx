import { useState } from 'react';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { putAway } from './errand-store.ts';

interface NotHereProps {
  readonly kind: string;
  readonly paper?: string | undefined;
  readonly title: string;
  /** It was said not to apply, and does after all. */
  readonly again: boolean;
}

/** "It doesn't apply here", with the reason; or the same taken back. */
export function NotHereSlip({ kind, paper, title, again }: NotHereProps) {
  const [why, setWhy] = useState('');
  const ready = again || why.trim() !== '';
  const act = async (): Promise<void> => {
    if (!ready) return;
    const named = paper ?? kind;
    const reply = again
      ? await perform('applies-again', { paper: named }, { say: `${title} applies again.` })
      : await perform('not-applicable', { paper: named, why: why.trim() }, { say: `${title}: doesn’t apply here.` });
    if (reply.ok) putAway();
  };
  return (
    <Slip
      title={again ? `${title} applies after all` : `${title} doesn’t apply here`}
      open
      onClose={putAway}
      foot={
        <Button as="stamp" disabled={!ready} onPress={() => void act()}>
          {again ? 'It applies' : 'It doesn’t apply'}
        </Button>
      }
    >
      {again ? (
        <p>It is asked for again wherever the rules ask for it.</p>
      ) : (
        <>
          <p>It is then not asked for on any errand. Say why, so that you know it again when somebody asks.</p>
          <Field label="Why it doesn’t apply" value={why} onChange={setWhy} lines autoFocus />
        </>
      )}
    </Slip>
  );
}
