import type { NeedReading } from '../../vocabulary/finding.ts';
import type { Errand, Need } from '../../vocabulary/practice.ts';
import { privacyInWords, privacyOf } from '../../vocabulary/privacy.ts';
import type { PacketOrder, PacketPurpose } from '../plan-model.ts';
import { contentOf, findEdition, isUsable, unusableNote } from './found.ts';
import { byHandNote, makeRow, placeOf } from './make-row.ts';
import { privacyNotes } from './private-papers.ts';
import { addRiders, ridesUnder } from './riders.ts';
import type { Row, Rows } from './row.ts';

/** The rows of an errand's packet: its needs in practice order, each paper's pages once. */
export function errandRows(order: PacketOrder, errand: Errand, needs: readonly NeedReading[]): Rows {
  const notes: string[] = [];
  const rows: Row[] = [];
  for (const reading of needs) {
    const need = errand.needs.find((one) => one.id === reading.need);
    if (need?.use === 'bring home') continue;
    const row = needRow({ order, errand, reading, need, tab: rows.length + 1 }, notes);
    if (row === undefined) continue;
    const riders = reading.riders ?? [];
    rows.push(...addRiders({ order, delivery: errand.deliver, need, riders }, { row: once(row, rows), rows, notes }));
  }
  return { rows, notes };
}

interface NeedRowOrder {
  readonly order: PacketOrder;
  readonly errand: Errand;
  readonly reading: NeedReading;
  readonly need: Need | undefined;
  readonly tab: number;
}

function needRow(from: NeedRowOrder, notes: string[]): Row | undefined {
  const { order, reading, need, tab, errand } = from;
  const found = reading.edition === undefined ? undefined : findEdition(order, reading.edition);
  const kindId = found?.paper.kind ?? reading.kind;
  const kind = order.practice.papers[kindId];
  const title = found?.paper.title ?? kind?.title ?? kindId;
  const kept = privacyInWords(title, privacyOf(kindId, order.practice.papers));
  if (kept !== undefined && need?.kinds.includes(kindId) !== true) {
    notes.push(`${kept} This errand doesn't ask for it by name: it was left out.`);
    return undefined;
  }
  const content = found === undefined ? undefined : contentOf(order, found);
  const usable = found !== undefined && isUsable(found, content);
  if (found !== undefined && !usable) notes.push(unusableNote(found));
  if (!usable) {
    if (need?.optional === true) return undefined;
    if (reading.applies === 'unknown') {
      notes.push(`"${kind?.title ?? kindId}" is not in hand. Whether it is asked for at all is not known yet.`);
      return undefined;
    }
  }
  const place = placeOf(found, {
    usable,
    content,
    need,
    delivery: errand.deliver,
    override: order.override !== undefined,
  });
  const reason = place === 'by hand' ? byHandNote(title, { found, need, delivery: errand.deliver }) : undefined;
  if (reason !== undefined) notes.push(reason);
  notes.push(...privacyNotes(kept, place, errand.deliver));
  return makeRow({
    order,
    delivery: errand.deliver,
    paper: found?.paper,
    found: usable ? found : undefined,
    content,
    kind,
    need,
    place,
    reading,
    title,
    tab,
  });
}

type OwnChoice = Extract<PacketPurpose, { of: 'own choice' }>;

/** The rows of a packet of the owner's own choosing, in the owner's order. */
export function ownChoiceRows(order: PacketOrder, purpose: OwnChoice): Rows {
  const { editions, delivery, findings = [] } = purpose;
  const notes: string[] = [];
  const rows: Row[] = [];
  for (const id of editions) {
    const found = findEdition(order, id);
    const kind = order.practice.papers[found.paper.kind];
    const content = contentOf(order, found);
    const usable = isUsable(found, content);
    if (!usable) notes.push(unusableNote(found));
    const about = findings.filter((finding) => finding.edition === id);
    const kept = privacyInWords(found.paper.title, privacyOf(found.paper.kind, order.practice.papers));
    if (kept !== undefined && !about.some(({ sort }) => sort === 'caution'))
      notes.push(`${kept} It goes in because you chose it yourself.`);
    const place = placeOf(found, {
      usable,
      content,
      need: undefined,
      delivery,
      override: order.override !== undefined,
    });
    const row = makeRow({
      order,
      delivery,
      paper: found.paper,
      found: usable ? found : undefined,
      content,
      kind,
      need: undefined,
      place,
      title: found.paper.title,
      tab: rows.length + 1,
    });
    rows.push(once({ ...row, tab: { ...row.tab, findings: about } }, rows));
  }
  return { rows, notes };
}

/** An edition that already stands under an earlier tab goes in once: this row points there. */
function once(row: Row, earlier: readonly Row[]): Row {
  const { edition } = row;
  const first = edition === undefined ? undefined : earlier.find((one) => ridesUnder(one, edition.id));
  if (first === undefined) return row;
  const tab = { ...row.tab, place: first.tab.place, pages: 0, seeTab: first.tab.tab };
  return { ...row, tab, pages: { how: 'none' }, beside: [] };
}
