import type { AmendableRow } from '../../core/desk/contract/screen-answers.ts';
import { AmendForm } from './AmendForm.tsx';
import { Slip } from './Slip.tsx';

export interface OtherwiseSlipProps {
  readonly row: AmendableRow;
  readonly onClose: () => void;
}

/** "The office said otherwise": one rule amended on the word of a named person, on a day. */
export function OtherwiseSlip({ row, onClose }: OtherwiseSlipProps) {
  return (
    <Slip title="The office said otherwise" open onClose={onClose}>
      <p className="slab">{row.group}</p>
      <AmendForm row={row} onDone={onClose} />
      <p className="small pencil">
        From now on this rule stands on that word, here and on every sheet, and can be taken back.
      </p>
    </Slip>
  );
}
