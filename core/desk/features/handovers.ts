import type { KeptPacket } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { acted } from './record-card.ts';

/** A packet by its id or its title; the newest where several bear it. */
function packetNamed(at: AtLot, said: string): KeptPacket {
  const all = at.lot.packets().toReversed();
  const found =
    all.find(({ id }) => id === said) ?? all.find(({ title }) => title.toLowerCase() === said.toLowerCase());
  if (found !== undefined) return found;
  const some = all.slice(0, 5).map(({ id, title, day }) => `${id} (${title}, ${day})`);
  throw new LotfileError('not found', `No packet is called "${said}".`, {
    next: some.length === 0 ? 'Assemble one first.' : `There are: ${some.join('; ')}.`,
  });
}

export const packets = onLot(requests.packets, (_input, { lot }) => ({
  packets: lot
    .packets()
    .toReversed()
    .map(({ id, title, recipient, day, files }) => ({
      packet: id,
      title,
      recipient,
      day,
      draft: lot.packetPlan(id).draft,
      files: files.map(({ name }) => name),
    })),
}));

/** Who was given which bytes, when, how, and on what receipt. */
export const handOver = onLot(requests['hand-over'], ({ packet, to, how, day, receipt, surrendered }, at) => {
  const kept = packetNamed(at, packet);
  let handover = '';
  const { act } = acted(at, `Handed over ${kept.title} to ${to}`, () => {
    const note = surrendered.length === 0 ? undefined : `Originals left with them: ${surrendered.join(', ')}`;
    handover = at.lot.handOver({ packet: kept.id, recipient: to, how, day: day ?? at.day, receipt, note });
  });
  const draft = at.lot.packetPlan(kept.id).draft;
  const notes = draft
    ? ['What you handed over is a DRAFT: its margins say so, and papers are missing or would be refused.']
    : [];
  return { act, handover, notes };
});

export const withdraw = onLot(requests.withdraw, ({ handover, reason }, at) =>
  acted(at, `Withdrew a handover: ${reason}`, () => at.lot.withdrawHandover(handover, { day: at.day, reason })),
);

export const handovers = onLot(requests.handovers, (_input, { lot }) => ({
  handovers: lot.handovers().map(({ id, packet, recipient, how, day, receipt, note, files, withdrawn }) => ({
    handover: id,
    packet: packet ?? '',
    packetTitle: packet === undefined ? '' : lot.packet(packet).title,
    to: recipient,
    how,
    day,
    receipt: receipt ?? '',
    note: note ?? '',
    sha256: files.map(({ sha256 }) => sha256),
    withdrawn: withdrawn?.reason,
  })),
}));
