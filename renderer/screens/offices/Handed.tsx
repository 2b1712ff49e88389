import { useState } from 'react';
import type { HandedRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf, usePlace } from '../../state/place.ts';

function Withdraw({ handed, onClose }: { readonly handed: HandedRow; readonly onClose: () => void }) {
  const [reason, setReason] = useState('');
  const withdraw = async (): Promise<void> => {
    const { handover } = handed;
    const reply = await perform(
      'withdraw',
      { handover, reason: reason.trim() },
      { say: `Withdrawn: ${handed.title}, handed to ${handed.to}.` },
    );
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title="This did not happen as noted"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={reason.trim() === ''} onPress={() => void withdraw()}>
          Withdraw it
        </Button>
      }
    >
      <p>
        {handed.title}, to {handed.to}, {dayInWords(handed.day)}. It stays on record as withdrawn.
      </p>
      <Field label="What happened instead" value={reason} onChange={setReason} lines autoFocus />
    </Slip>
  );
}

function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? '' : 's'}`;
}

function What({ handed }: { readonly handed: HandedRow }) {
  const [shown, show] = useState(false);
  const old = handed.editions.filter((edition) => edition.old);
  const left = handed.editions.filter(({ surrendered }) => surrendered);
  return (
    <div>
      <p>
        {handed.title} <span className="small pencil">{handed.how}</span>{' '}
        {handed.receipt === '' ? null : <span className="small">receipt {handed.receipt}</span>}
      </p>
      {old.map(({ edition, paper, title, number }) => (
        <p key={edition} className="small office-old">
          <Mark word="replaced" say="they hold an old copy" /> <a href={addressOf('papers', paper)}>{title}</a> {number}
        </p>
      ))}
      {left.length === 0 ? null : (
        <p className="small">Originals left there: {left.map(({ title }) => title).join(', ')}.</p>
      )}
      <Button as="word" small onPress={() => show(!shown)}>
        {shown ? 'less' : `${counted(handed.editions.length, 'paper')}, ${counted(handed.files.length, 'file')}`}
      </Button>
      {shown ? (
        <ul className="office-files small">
          {handed.editions.map(({ edition, paper, title, copies }) => (
            <li key={edition}>
              <a href={addressOf('papers', paper, edition)}>{title}</a>
              {copies > 1 ? `, ${copies} copies` : ''}
            </li>
          ))}
          {handed.files.map(({ name, sha256 }) => (
            <li key={name} className="pencil">
              {name} <span className="mono">{sha256.slice(0, 12)}</span>
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
}

/** What was given away: what exactly, to whom, and whether it is still the newest. */
export function Handed({ handed }: { readonly handed: HandedRow }) {
  const { rest } = usePlace();
  // Come here to withdraw just this one.
  const [withdrawing, setWithdrawing] = useState(rest[0] === 'withdraw' && rest[1] === handed.handover);
  return (
    <li>
      <span className="small pencil">
        given {dayInWords(handed.day)} to {handed.to}
      </span>
      <What handed={handed} />
      <span className="acts">
        <Button
          as="word"
          small
          onPress={() => setWithdrawing(true)}
          label={`Not as noted: ${handed.title}, to ${handed.to}`}
        >
          not as noted
        </Button>
      </span>
      {withdrawing ? <Withdraw handed={handed} onClose={() => setWithdrawing(false)} /> : null}
    </li>
  );
}
