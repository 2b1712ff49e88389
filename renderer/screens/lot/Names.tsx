import { useState } from 'react';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import type { Identity } from '../../../core/vocabulary/lot.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';

type Sort = Identity['sort'];
const sorts: readonly { readonly id: Sort; readonly title: string }[] = [
  { id: 'owner', title: 'owner' },
  { id: 'place', title: 'address or lot' },
  { id: 'parcel', title: 'parcel number' },
];

function span({ from, to }: Identity): string {
  if (from !== undefined && to !== undefined) return `${dayInWords(from)} to ${dayInWords(to)}`;
  if (from !== undefined) return `since ${dayInWords(from)}`;
  return to === undefined ? '' : `until ${dayInWords(to)}`;
}

function AddName({ onClose }: { readonly onClose: () => void }) {
  const [sort, setSort] = useState<Sort>('owner');
  const [text, setText] = useState('');
  const [from, setFrom] = useState<Day>();
  const add = async (): Promise<void> => {
    const reply = await perform('identity', { sort, text: text.trim(), from }, { say: `Noted: ${text.trim()}.` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title="A name, address or parcel number, as printed"
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={text.trim() === ''} onPress={() => void add()}>
          Note it
        </Button>
      }
    >
      <Choices
        label="What is it?"
        options={sorts}
        value={sort}
        onChange={(id) => setSort(sorts.find((each) => each.id === id)?.id ?? 'owner')}
      />
      <Field
        label="Exactly as it is printed on papers"
        value={text}
        onChange={setText}
        hint="Each spelling that offices use is worth a line of its own: spouse, trust, old lot number."
      />
      <DayField label="Since (if it changed)" value={from} onChange={setFrom} />
    </Slip>
  );
}

/** Owners, addresses and parcel numbers over time: what papers are compared with. */
export function Names({ identities }: { readonly identities: readonly Identity[] }) {
  const [adding, setAdding] = useState(false);
  const day = useDay();
  const end = (identity: Identity): void => {
    const { sort, text } = identity;
    void perform(
      'end-identity',
      { sort, text, day },
      { say: `"${text}" is marked as old: used until ${dayInWords(day)}.` },
    );
  };
  return (
    <section className="lot-card">
      <header>
        <h2>Names as printed</h2>
        <p className="small">Papers are compared with these; the cover of a packet bears them.</p>
      </header>
      {identities.length === 0 ? (
        <p className="lot-none">None yet. Note the owner, the address or lot, and the parcel number.</p>
      ) : (
        <ul className="lot-rows">
          {identities.map((identity) => (
            <li key={`${identity.sort} ${identity.text}`}>
              <span className="pencil">{sorts.find(({ id }) => id === identity.sort)?.title}</span>
              <span>
                <span className={identity.sort === 'parcel' ? 'mono' : ''}>{identity.text}</span>{' '}
                <span className="small pencil">{span(identity)}</span>
              </span>
              <span className="acts">
                {identity.to === undefined ? (
                  <Button as="word" small onPress={() => end(identity)} label={`mark as old: ${identity.text}`}>
                    mark as old
                  </Button>
                ) : null}
              </span>
            </li>
          ))}
        </ul>
      )}
      <div className="lot-add">
        <Button onPress={() => setAdding(true)}>Add a name, address or number</Button>
      </div>
      {adding ? <AddName onClose={() => setAdding(false)} /> : null}
    </section>
  );
}
