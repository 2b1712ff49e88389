import type { HandedEdition, KeptPacket } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { type AtLot, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { editionNamed } from '../named.ts';
import { goneOut, packetNamed, wholeParts } from './packet-files.ts';
import { acted } from './record-card.ts';

export const packets = onLot(requests.packets, (_input, { lot }) => ({
  packets: lot.packets().map(({ id, errand, title, recipient, day, files }) => ({
    packet: id,
    errand,
    title,
    recipient,
    day,
    draft: lot.packetIsDraft(id),
    files: files.map(({ name }) => name),
  })),
}));

/** A paper the person named that the lot knows; anything else they left there stays as they wrote it, in the note. */
function knownEdition(said: string, at: AtLot): string | undefined {
  try {
    return editionNamed({ view: at.lot.view(), practice: at.lot.practice(), day: at.day }, said).edition.id;
  } catch (error) {
    const { code } = LotfileError.from(error);
    if (code === 'not found' || code === 'wrong use') return undefined;
    throw error;
  }
}

/** What they hold now: the packet's editions in as many copies as went along, and originals left with them. */
function given(kept: KeptPacket, surrendered: readonly string[], at: AtLot): readonly HandedEdition[] {
  const left = new Set(surrendered.flatMap((said) => knownEdition(said, at) ?? []));
  const copies = new Map(
    at.lot
      .packetPlan(kept.id)
      .tabs.flatMap(({ edition, riders = [], copies: count }) =>
        edition === undefined ? [] : [edition, ...riders].map((id) => [id, count] as const),
      ),
  );
  return [...new Set([...kept.editions, ...left])].map((edition) => ({
    edition,
    copies: copies.get(edition) ?? 1,
    surrendered: left.has(edition),
  }));
}

/** Who was given which bytes, when, how, and on what receipt. */
export const handOver = onLot(requests['hand-over'], async ({ packet, to, how, day, receipt, surrendered }, at) => {
  const kept = packetNamed(at, packet);
  // A print shop's file is no attachment; what goes by mail is what the draft holds.
  const parts = (await wholeParts(kept, at)).filter(({ sort }) => sort !== 'print shop' || how !== 'e-mail');
  const files = parts.map(({ name, sha256, bytes }) => ({ name, sha256, bytes }));
  let handover = '';
  const { act } = acted(at, `Handed over ${kept.title} to ${to}`, () => {
    const note = surrendered.length === 0 ? undefined : `Originals left with them: ${surrendered.join(', ')}`;
    const office = kept.errand === undefined ? undefined : at.lot.practice().errands[kept.errand]?.office;
    const editions = given(kept, surrendered, at);
    const said = { packet: kept.id, files, office, recipient: to, how, day: day ?? at.day, receipt, note };
    handover = at.lot.handOver(editions.length === 0 ? said : { ...said, editions });
  });
  const draft = at.lot.packetIsDraft(kept.id);
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
    sha256: (packet === undefined ? files : goneOut(packet, files, { lot })).map(({ sha256 }) => sha256),
    withdrawn: withdrawn?.reason,
  })),
}));
