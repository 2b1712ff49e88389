import { useState } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Tick } from '../../kit/Tick.tsx';
import { perform } from '../../state/doing.ts';
import { go } from '../../state/place.ts';
import { tellTrouble } from '../../state/telling.ts';
import { listInWords } from './state-words.ts';

export interface PurgeSlipProps {
  readonly paper: PagesAnswer;
  readonly onClose: () => void;
}

/** The one thing that can't be taken back: says what is lost, then asks once more. */
export function PurgeSlip({ paper, onClose }: PurgeSlipProps) {
  const [reason, setReason] = useState('');
  const [understood, understand] = useState(false);
  const names = listInWords(paper.originals.map(({ name }) => name));
  const remove = async (): Promise<void> => {
    const reply = await perform('purge', { edition: paper.edition, reason: reason.trim(), sure: true });
    if (!reply.ok) return;
    const left = reply.answer.notes.join(' ');
    if (left !== '') tellTrouble({ code: 'disk', message: `Not all of it is gone yet. ${left}` });
    onClose();
    go('papers');
  };
  return (
    <Slip
      title="Remove a file for good"
      open
      onClose={onClose}
      foot={
        <>
          <Button disabled={!understood || reason.trim() === ''} onPress={() => void remove()}>
            Remove {names} for good
          </Button>
          <Button as="stamp" onPress={onClose}>
            Keep it
          </Button>
        </>
      }
    >
      <p>
        This is meant for a paper that should never have been here: a bank statement, a social security number.{' '}
        <strong>It can’t be taken back.</strong>
      </p>
      <ul className="paper-lost">
        <li>The file itself is deleted: {names}.</li>
        <li>Its {paper.pages.length === 1 ? 'page' : `${paper.pages.length} pages`} and the words read on them go.</li>
        <li>Every packet that holds it is deleted; what was handed over stays with those who have it.</li>
        <li>A marker stays, with the day and your reason.</li>
        {paper.holders.length === 0 ? null : (
          <li>{listInWords(paper.holders.map(({ to }) => to))} still hold a copy: this doesn’t reach them.</li>
        )}
      </ul>
      <Field label="Why it has to go" value={reason} onChange={setReason} />
      <Tick checked={understood} onChange={understand}>
        I know that nobody can bring it back.
      </Tick>
    </Slip>
  );
}
