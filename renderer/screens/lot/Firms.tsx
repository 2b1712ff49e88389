import { useState } from 'react';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';

function AddFirm({ onClose }: { readonly onClose: () => void }) {
  const [firm, setFirm] = useState('');
  const [trade, setTrade] = useState('');
  const [from, setFrom] = useState<Day>();
  const [to, setTo] = useState<Day>();
  const add = async (): Promise<void> => {
    const reply = await perform(
      'engage',
      { firm: firm.trim(), trade: trade.trim(), from, to },
      { say: `Noted: ${firm}.` },
    );
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title="A firm on the job"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={firm.trim() === '' || trade.trim() === ''} onPress={() => void add()}>
          Note the firm
        </Button>
      }
    >
      <div className="lot-form">
        <Field label="Firm, as on its licence" value={firm} onChange={setFirm} autoFocus />
        <Field label="Trade" value={trade} onChange={setTrade} placeholder="for example: electrical" />
        <div className="pair">
          <DayField label="First day on site" value={from} onChange={setFrom} />
          <DayField label="Last day, if known" value={to} onChange={setTo} />
        </div>
        <p className="small pencil">
          Its licence and certificates are asked for on each of these days. A certificate of insurance is not cover: ask
          the insurer when in doubt.
        </p>
      </div>
    </Slip>
  );
}

function days({ from, to }: Subject): string {
  if (from === undefined) return to === undefined ? 'days not said' : `until ${dayInWords(to)}`;
  return to === undefined ? `since ${dayInWords(from)}` : `${dayInWords(from)} to ${dayInWords(to)}`;
}

/** Who works on the lot and from when to when: papers are kept per firm, and cover is checked for each day. */
export function Firms({ subjects }: { readonly subjects: readonly Subject[] }) {
  const [adding, setAdding] = useState(false);
  const day = useDay();
  const firms = subjects.filter(({ sort }) => sort === 'engagement');
  return (
    <section className="lot-card">
      <header>
        <h2>Firms on the job</h2>
        <p className="small">Licence and cover are asked for, firm by firm.</p>
      </header>
      {firms.length === 0 ? (
        <p className="lot-none">None yet. Note a firm when you hire it, before it first comes.</p>
      ) : (
        <ul className="lot-rows">
          {firms.map((firm) => (
            <li key={firm.id}>
              <span className="pencil">{firm.trade ?? firm.title}</span>
              <span>
                {firm.firm ?? firm.title} <span className="small pencil">{days(firm)}</span>
              </span>
              <span className="acts">
                {firm.to === undefined ? (
                  <Button
                    as="word"
                    small
                    label={`${firm.firm ?? firm.title}: today was the last day`}
                    onPress={() =>
                      void perform('end-firm', { firm: firm.id, day }, { say: 'Noted: today was the last day.' })
                    }
                  >
                    last day today
                  </Button>
                ) : null}
              </span>
            </li>
          ))}
        </ul>
      )}
      <div className="lot-add">
        <Button onPress={() => setAdding(true)}>Add a firm</Button>
      </div>
      {adding ? <AddFirm onClose={() => setAdding(false)} /> : null}
    </section>
  );
}
