import { useState } from 'react';
import type { HandoverRow, PacketRow } from '../../../core/desk/contract/answers.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { savePaper } from '../../state/writing.ts';
import type { Sight } from './errand-model.ts';
import { lay } from './errand-store.ts';
import { FileList } from './FileList.tsx';

function Handover({ row }: { readonly row: HandoverRow }) {
  const [asking, ask] = useState(false);
  const [reason, setReason] = useState('');
  const act = (): void => {
    void perform(
      'withdraw',
      { handover: row.handover, reason: reason.trim() },
      { say: `Withdrawn: handed to ${row.to} on ${dayWithWeekday(row.day)}.` },
    );
    ask(false);
  };
  return (
    <li>
      <p>
        Handed to {row.to} on {dayWithWeekday(row.day)}, {row.how}
        {row.receipt === '' ? '' : `, receipt ${row.receipt}`}.{row.note === '' ? '' : ` ${row.note}.`}{' '}
        {row.withdrawn === undefined ? (
          <Button
            as="word"
            small
            onPress={() => ask(!asking)}
            label={`It did not happen like this: handed to ${row.to}`}
          >
            It did not happen like this
          </Button>
        ) : (
          <em>Withdrawn: {row.withdrawn}</em>
        )}
      </p>
      {asking ? (
        <div className="errand-pair">
          <Field label="What is wrong with it" value={reason} onChange={setReason} autoFocus />
          <div className="errand-row errand-end">
            <Button disabled={reason.trim() === ''} onPress={act}>
              Withdraw it
            </Button>
          </div>
        </div>
      ) : null}
    </li>
  );
}

interface OnePacketProps {
  readonly packet: PacketRow;
  readonly handovers: readonly HandoverRow[];
}

function OnePacket({ packet, handovers }: OnePacketProps) {
  const [shown, show] = useState(false);
  const made = useAnswer('packet-files', shown ? { packet: packet.packet } : undefined).answer;
  const own = handovers.filter((row) => row.packet === packet.packet);
  return (
    <li className="errand-packet">
      <div className="errand-packet-line">
        <span className="slab">{packet.title}</span>
        <span>
          made {dayWithWeekday(packet.day)}
          {packet.draft ? <strong className="errand-red"> DRAFT</strong> : null}
        </span>
        <span className="errand-row">
          <Button
            small
            onPress={() => show(!shown)}
            label={`${shown ? 'Hide files' : `${packet.files.length} files`}, made ${packet.day}`}
          >
            {shown ? 'Hide files' : `${packet.files.length} files`}
          </Button>
          <Button
            small
            onPress={() => void savePaper({ sort: 'transmittal', packet: packet.packet })}
            label={`Letter with it: the packet made ${packet.day}`}
          >
            Letter with it
          </Button>
          <Button
            small
            onPress={() => lay({ slip: 'hand over', packet: packet.packet })}
            label={`Hand over the packet made ${packet.day}`}
          >
            Hand over
          </Button>
        </span>
      </div>
      {shown ? <FileList files={made?.files ?? []} missing={made?.missing} /> : null}
      {own.length === 0 ? null : (
        <ul>
          {own.map((row) => (
            <Handover key={row.handover} row={row} />
          ))}
        </ul>
      )}
    </li>
  );
}

/** Packets of this errand that were assembled, newest first. */
export function usePacketsMade({ target }: Sight): readonly PacketRow[] {
  const packets = useAnswer('packets', {}).answer?.packets ?? [];
  return packets.filter(({ errand }) => errand === target.errand);
}

/** Packets of this errand that were assembled, newest first, and who was given them. */
export function PacketsMade({ sight }: { readonly sight: Sight }) {
  const handovers = useAnswer('handovers', {}).answer?.handovers ?? [];
  const ours = usePacketsMade(sight);
  if (ours.length === 0) return null;
  return (
    <section className="errand-packets">
      <h2 data-place="packets made" tabIndex={-1}>
        Packets made
      </h2>
      <ol>
        {ours.map((packet) => (
          <OnePacket key={packet.packet} packet={packet} handovers={handovers} />
        ))}
      </ol>
    </section>
  );
}
