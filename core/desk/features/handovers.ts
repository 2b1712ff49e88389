import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { acted } from './record-card.ts';

/** Who was given which bytes, when, how, and on what receipt. */
export const handOver = onLot(requests['hand-over'], ({ packet, to, how, day, receipt, surrendered }, at) => {
  const kept = at.lot.packet(packet);
  let handover = '';
  const { act } = acted(at, `Handed over ${kept.title} to ${to}`, () => {
    const note = surrendered.length === 0 ? undefined : `Originals left with them: ${surrendered.join(', ')}`;
    handover = at.lot.handOver({ packet, recipient: to, how, day: day ?? at.day, receipt, note });
  });
  return { act, handover };
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
