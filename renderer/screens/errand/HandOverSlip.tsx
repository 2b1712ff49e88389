import { useState } from 'react';
import type { PacketFilesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import type { DeliveryWay } from '../../../core/vocabulary/practice.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Tick } from '../../kit/Tick.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import type { Sight } from './errand-model.ts';
import { putAway } from './errand-store.ts';
import { FileList } from './FileList.tsx';
import { MailDraft } from './MailDraft.tsx';

const ways = [
  { id: 'at the counter', title: 'At the counter' },
  { id: 'upload', title: 'Upload' },
  { id: 'e-mail', title: 'E-mail' },
];

function usualWay(way: DeliveryWay): string {
  if (way === 'upload') return 'upload';
  return way === 'e-mail' || way === 'lender' ? 'e-mail' : 'at the counter';
}

/** What helps with this way before it is noted: files to save, or a draft to send. */
function Help({ way, made }: { readonly way: string; readonly made: PacketFilesAnswer }) {
  const files = made.files.filter(({ sort }) => sort !== 'errand sheet');
  if (way === 'e-mail') return <MailDraft packet={made.packet} />;
  return (
    <div>
      <p>
        {way === 'upload'
          ? 'Save these where you can find them, then choose them on the office’s upload page.'
          : 'Print these, or take them along on a stick.'}
      </p>
      <FileList files={files} missing={made.missing} />
    </div>
  );
}

interface OriginalsProps {
  readonly titles: readonly string[];
  readonly given: readonly string[];
  readonly onGiven: (given: readonly string[]) => void;
}

function Originals({ titles, given, onGiven }: OriginalsProps) {
  if (titles.length === 0) return null;
  return (
    <details className="errand-originals">
      <summary>
        Originals they kept{given.length === 0 ? '' : `: ${given.length}`} <span className="pencil">(if any)</span>
      </summary>
      <div>
        {titles.map((title) => (
          <Tick
            key={title}
            checked={given.includes(title)}
            onChange={(on) => onGiven(on ? [...given, title] : given.filter((one) => one !== title))}
          >
            {title}
          </Tick>
        ))}
      </div>
    </details>
  );
}

function Form({ sight, made }: { readonly sight: Sight; readonly made: PacketFilesAnswer }) {
  const { answer, target } = sight;
  const today = useDay();
  const [way, setWay] = useState(usualWay(answer.errand.deliver.way));
  const [to, setTo] = useState(answer.office.title);
  const [day, setDay] = useState<Day | undefined>(today);
  const [receipt, setReceipt] = useState('');
  const [given, setGiven] = useState<readonly string[]>([]);
  const [left, setLeft] = useState(true);
  const waits = answer.reading.state !== 'left with them' && answer.reading.state !== 'settled';
  const ready = to.trim() !== '' && day !== undefined;
  const originals = answer.needs.filter(({ edition, use }) => edition !== undefined && use === 'leave');
  const act = async (): Promise<void> => {
    if (!ready) return;
    const said = receipt.trim() === '' ? {} : { receipt: receipt.trim() };
    const argument = { packet: made.packet, to: to.trim(), how: way, day, surrendered: [...given], ...said };
    const reply = await perform('hand-over', argument, {
      say: `Handed over to ${to.trim()}.`,
      instead: ({ handover }) => ({ say: 'withdraw', to: addressOf('offices', 'withdraw', handover) }),
    });
    if (!reply.ok) return;
    putAway();
    if (waits && left) {
      await perform(
        'visit',
        { ...target, day, state: 'left with them' },
        { say: `${answer.errand.title}: left with them.` },
      );
    }
  };
  return (
    <form
      className="errand-form"
      onSubmit={(event) => {
        event.preventDefault();
        void act();
      }}
    >
      {made.draft ? <p className="errand-draft">This packet is a DRAFT: its margins say so.</p> : null}
      <Choices label="How" options={ways} value={way} onChange={setWay} />
      <Help way={way} made={made} />
      <h3>Note it, once it is done</h3>
      <div className="errand-pair">
        <Field label="To whom" value={to} onChange={setTo} required />
        <DayField label="On" value={day} onChange={setDay} />
      </div>
      <Field
        label="Receipt (if they gave one)"
        value={receipt}
        onChange={setReceipt}
        hint="Its number, or how they confirmed it."
      />
      <Originals titles={originals.map(({ title }) => title)} given={given} onGiven={setGiven} />
      {waits ? (
        <Tick checked={left} onChange={setLeft}>
          The errand is now left with them
        </Tick>
      ) : null}
      <div className="errand-row">
        <Button as="stamp" submit disabled={!ready}>
          Note that it was handed over
        </Button>
      </div>
    </form>
  );
}

/** Hand a finished packet over: at the counter, by upload or by e-mail; and note to whom, when, on what receipt. */
export function HandOverSlip({ sight, packet }: { readonly sight: Sight; readonly packet: string }) {
  const made = useAnswer('packet-files', { packet });
  return (
    <Slip
      title={made.answer === undefined ? 'Hand over' : `Hand over: ${made.answer.title}`}
      open
      wide
      onClose={putAway}
    >
      <div className="errand-slip">
        <Answered of={made}>{(answer) => <Form sight={sight} made={answer} />}</Answered>
      </div>
    </Slip>
  );
}
