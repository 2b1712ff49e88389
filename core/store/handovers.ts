import type { KeptFile } from '../packet/plan-model.ts';
import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { EditionId, PacketId } from '../vocabulary/lot.ts';
import { newId } from './ids.ts';
import type { HandedEdition, Handover, HandoverId, NewHandover } from './keeping-model.ts';
import type { Ledger } from './ledger.ts';
import { packetById } from './packets.ts';

function writeGiven(ledger: Ledger, id: HandoverId, handover: NewHandover): void {
  const packet = handover.packet === undefined ? undefined : packetById(ledger, handover.packet);
  const files = handover.files ?? packet?.files ?? [];
  const editions: readonly HandedEdition[] =
    handover.editions ?? (packet?.editions ?? []).map((edition) => ({ edition, copies: 1, surrendered: false }));
  if (files.length === 0 && editions.length === 0) {
    throw new LotfileError('wrong use', 'A handover must say what was given away.', {
      next: 'Name the packet, the papers or the files.',
    });
  }
  const file = ledger.db.prepare('INSERT INTO handover_file (handover, name, sha256, bytes) VALUES (?, ?, ?, ?)');
  for (const { name, sha256, bytes } of files) file.run(id, name, sha256, bytes);
  const one = ledger.db.prepare(
    'INSERT INTO handover_edition (handover, edition, copies, surrendered) VALUES (?, ?, ?, ?)',
  );
  for (const { edition, copies, surrendered } of editions) {
    ledger.mustHave('edition', edition);
    one.run(id, edition, copies, Number(surrendered));
  }
}

/** Records what was given to whom. It can never be undone, only withdrawn: the papers are out of the house. */
export function handOver(ledger: Ledger, handover: NewHandover): HandoverId {
  return ledger.act(`Handed over to ${handover.recipient}`, () => {
    if (handover.visit !== undefined) ledger.mustHave('visit', handover.visit);
    const id = newId('h');
    ledger.db
      .prepare(
        `INSERT INTO handover (id, packet, visit, office, recipient, how, day, receipt, note)
         VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
      )
      .run(
        id,
        handover.packet ?? null,
        handover.visit ?? null,
        handover.office ?? null,
        handover.recipient,
        handover.how,
        handover.day,
        handover.receipt ?? null,
        handover.note ?? null,
      );
    writeGiven(ledger, id, handover);
    ledger.lasting("A handover can't be undone; withdraw it and say why.");
    return id;
  });
}

export function withdrawHandover(ledger: Ledger, id: HandoverId, withdrawal: { day: Day; reason: string }): void {
  if (withdrawal.reason.trim() === '') {
    throw new LotfileError('wrong use', 'Withdrawing a handover needs a reason.', { next: 'Say why in a few words.' });
  }
  ledger.act('Handover withdrawn', () => {
    ledger.mustHave('handover', id);
    const done = ledger.db
      .prepare('UPDATE handover SET withdrawn_day = ?, withdrawn_reason = ? WHERE id = ? AND withdrawn_reason IS NULL')
      .run(withdrawal.day, withdrawal.reason, id);
    if (done.changes === 0) throw new LotfileError('conflict', 'This handover was withdrawn before.', { about: id });
  });
}

interface HandoverRow {
  readonly id: string;
  readonly packet: string | null;
  readonly visit: string | null;
  readonly office: string | null;
  readonly recipient: string;
  readonly how: string;
  readonly day: Day;
  readonly receipt: string | null;
  readonly note: string | null;
  readonly withdrawn_day: Day | null;
  readonly withdrawn_reason: string | null;
}

function shown(ledger: Ledger, row: HandoverRow): Handover {
  const files = ledger.db
    .prepare<[string], KeptFile>('SELECT sha256, name, bytes FROM handover_file WHERE handover = ? ORDER BY seq')
    .all(row.id);
  const editions = ledger.db
    .prepare<[string], { edition: string; copies: number; surrendered: number }>(
      'SELECT edition, copies, surrendered FROM handover_edition WHERE handover = ? ORDER BY seq',
    )
    .all(row.id);
  return {
    id: row.id,
    packet: row.packet ?? undefined,
    visit: row.visit ?? undefined,
    office: row.office ?? undefined,
    recipient: row.recipient,
    how: row.how,
    day: row.day,
    receipt: row.receipt ?? undefined,
    note: row.note ?? undefined,
    files,
    editions: editions.map((one) => ({ ...one, surrendered: one.surrendered === 1 })),
    withdrawn:
      row.withdrawn_day === null || row.withdrawn_reason === null
        ? undefined
        : { day: row.withdrawn_day, reason: row.withdrawn_reason },
  };
}

/** Newest first; narrowed to those that gave an edition away, or to one packet's. */
export function handoversOf(
  ledger: Ledger,
  filter: { edition?: EditionId | undefined; packet?: PacketId | undefined },
): readonly Handover[] {
  return ledger.db
    .prepare<[{ edition: string | null; packet: string | null }], HandoverRow>(
      `SELECT * FROM handover WHERE (:packet IS NULL OR packet = :packet) AND (:edition IS NULL OR EXISTS
         (SELECT 1 FROM handover_edition WHERE handover = handover.id AND edition = :edition))
       ORDER BY day DESC, seq DESC`,
    )
    .all({ edition: filter.edition ?? null, packet: filter.packet ?? null })
    .map((row) => shown(ledger, row));
}
