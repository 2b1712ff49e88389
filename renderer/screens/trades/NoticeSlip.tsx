import { useState } from 'react';
import type { TradeRow } from '../../../core/desk/contract/cost-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { PaperPick } from '../../kit/PaperPick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';

/** A supplier told the owner that it delivers for a firm: from then on its waiver is asked for as well. */
export function NoticeSlip({ row, onClose }: { readonly row: TradeRow; readonly onClose: () => void }) {
  const today = useDay();
  const [supplier, setSupplier] = useState('');
  const [delivers, setDelivers] = useState('');
  const [day, setDay] = useState<Day | undefined>(today);
  const [since, setSince] = useState<Day>();
  const [edition, setEdition] = useState<string>();
  const note = async (): Promise<void> => {
    const said = { supplier: supplier.trim(), firm: row.subject, day, since, edition };
    const what = delivers.trim() === '' ? said : { ...said, delivers: delivers.trim() };
    const reply = await perform('notice', what, { say: `Noted the notice of ${supplier.trim()}.` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={`A supplier of ${row.firm} gave notice`}
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={supplier.trim() === ''} onPress={() => void note()}>
          Note it
        </Button>
      }
    >
      <Field label="Supplier, as written on the notice" value={supplier} onChange={setSupplier} autoFocus />
      <Field label="What it delivers" value={delivers} onChange={setDelivers} placeholder="for example: trusses" />
      <div className="trades-pair">
        <DayField label="Notice came on" value={day} onChange={setDay} />
        <DayField label="Delivers since, if written" value={since} onChange={setSince} />
      </div>
      <PaperPick
        label="The notice itself, where it is kept"
        value={edition}
        onChange={setEdition}
        first={/notice|lien/i}
      />
      <p className="small pencil">
        A notice is no bill and nothing bad: it keeps the supplier’s right to a lien should the firm not pay it. Your
        state’s law says what it does and until when.
      </p>
    </Slip>
  );
}
