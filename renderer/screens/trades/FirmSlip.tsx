import { useState } from 'react';
import type { TradeRow } from '../../../core/desk/contract/cost-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';

export interface FirmSlipProps {
  /** The firm whose trade the new one takes over; undefined: a firm that was not there before. */
  readonly leaving?: TradeRow | undefined;
  readonly onClose: () => void;
}

/** A firm on the job, or another one in the place of a firm that leaves in the middle. */
export function FirmSlip({ leaving, onClose }: FirmSlipProps) {
  const [firm, setFirm] = useState('');
  const [trade, setTrade] = useState(leaving?.trade ?? '');
  const [from, setFrom] = useState<Day>();
  const [to, setTo] = useState<Day | undefined>(leaving?.to);
  const by = firm.trim();
  const note = async (): Promise<void> => {
    const say = `Noted: ${by}.`;
    const reply =
      leaving === undefined
        ? await perform('engage', { firm: by, trade: trade.trim(), from, to }, { say })
        : from === undefined
          ? undefined
          : await perform('change-firm', { firm: leaving.subject, by, day: from, until: to }, { say });
    if (reply?.ok === true) onClose();
  };
  const ready = by !== '' && (leaving === undefined ? trade.trim() !== '' : from !== undefined);
  return (
    <Slip
      title={leaving === undefined ? 'A firm on the job' : `Another firm takes over from ${leaving.firm}`}
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={!ready} onPress={() => void note()}>
          Note the firm
        </Button>
      }
    >
      <Field label="Firm, as on its licence" value={firm} onChange={setFirm} autoFocus />
      {leaving === undefined ? (
        <Field label="Trade" value={trade} onChange={setTrade} placeholder="for example: electrical" />
      ) : null}
      <div className="trades-pair">
        <DayField label={leaving === undefined ? 'First day' : 'Its first day'} value={from} onChange={setFrom} />
        <DayField label="Last day, if known" value={to} onChange={setTo} />
      </div>
      <p className="small pencil">
        {leaving === undefined
          ? 'Its licence and certificates are asked for on each of these days.'
          : `${leaving.firm} ends the day before. Papers stay with the firm they belong to; ask the office whether the permit has to name the new one.`}{' '}
        A certificate of insurance is not cover: ask the insurer when in doubt.
      </p>
    </Slip>
  );
}
