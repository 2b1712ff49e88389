import { useState } from 'react';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';

export interface NotApplicableSlipProps {
  /** A paper, or a kind of which nothing was kept. */
  readonly paper: string;
  readonly title: string;
  readonly open: boolean;
  readonly onClose: () => void;
}

/** Says that a paper isn't asked of this lot, with the reason: the reason is what a clerk will ask for. */
export function NotApplicableSlip({ paper, title, open, onClose }: NotApplicableSlipProps) {
  const [why, setWhy] = useState('');
  const say = async (): Promise<void> => {
    const reply = await perform('not-applicable', { paper, why: why.trim() }, { say: `${title} doesn’t apply here.` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={`${title} doesn’t apply`}
      open={open}
      onClose={onClose}
      foot={
        <>
          <Button as="stamp" disabled={why.trim() === ''} onPress={() => void say()}>
            It doesn’t apply
          </Button>
          <Button onPress={onClose}>Leave it</Button>
        </>
      }
    >
      <p>
        No errand will ask for it any more. Say why, and who told you: if the office sees it otherwise, this is what you
        will want to show.
      </p>
      <Field label="Why it doesn’t apply here" value={why} onChange={setWhy} lines autoFocus />
    </Slip>
  );
}
