import type { EditionId } from '../../vocabulary/lot.ts';
import type { Delivery, Need } from '../../vocabulary/practice.ts';
import { privacyOf } from '../../vocabulary/privacy.ts';
import type { PacketOrder, PlanTab } from '../plan-model.ts';
import { contentOf, type Found, findEdition, isUsable, unusableNote } from './found.ts';
import { byHandNote, makeRow, placeOf } from './make-row.ts';
import type { Rider, Row } from './row.ts';

/** Whether an edition stands under this tab, as its paper or as a rider of it. */
export function ridesUnder(row: Row, edition: EditionId): boolean {
  return row.edition?.id === edition || row.riders.some((rider) => rider.edition.id === edition);
}

export interface RidersOrder {
  readonly order: PacketOrder;
  readonly delivery: Delivery;
  readonly need: Need | undefined;
  readonly riders: readonly EditionId[];
}

interface Added {
  readonly row: Row;
  readonly rows: readonly Row[];
  readonly notes: string[];
}

/**
 * The paper with what extends, amends or carries it on: under its own tab, after its pages, where those go the same
 * way; under a tab of their own right after it where they travel apart (sealed, untouched, on paper only, missing).
 */
export function addRiders(from: RidersOrder, { row, rows, notes }: Added): readonly Row[] {
  if (row.edition === undefined || row.tab.seeTab !== undefined) return [row];
  const joined: Rider[] = [];
  const apart: Row[] = [];
  for (const id of from.riders) {
    if (rows.some((earlier) => ridesUnder(earlier, id))) continue;
    const found = findEdition(from.order, id);
    const kept = heldBack(from, found, row.title);
    if (kept.note !== undefined) notes.push(kept.note);
    if (kept.out) continue;
    const rider = riderRow(from, { found, main: row, tab: row.tab.tab + 1 + apart.length }, notes);
    const together =
      rider.tab.place === row.tab.place && (rider.tab.place === 'inside' || rider.tab.place === 'by hand');
    if (together) joined.push({ edition: found.edition, title: rider.title, pages: rider.pages });
    else apart.push(rider);
  }
  return [joined.length === 0 ? row : withRiders(row, joined), ...apart];
}

interface Kept {
  readonly out: boolean;
  readonly note?: string | undefined;
}

/** A private one stays out unless its kind is asked for; one of no rule goes in on the owner's word that it belongs. */
function heldBack({ order, need }: RidersOrder, { paper }: Found, main: string): Kept {
  const { kind, title } = paper;
  if (need?.kinds.includes(kind) === true) return { out: false };
  switch (privacyOf(kind, order.practice.papers)) {
    case 'private':
      return {
        out: true,
        note: `"${title}" belongs to "${main}", but is private and not asked for by name: it was left out.`,
      };
    case 'no rule':
      return {
        out: false,
        note: `No rule knows "${title}": it goes in because you noted that it belongs to "${main}".`,
      };
    case 'open':
      return { out: false };
  }
}

function riderRow(
  { order, delivery, need }: RidersOrder,
  of: { readonly found: Found; readonly main: Row; readonly tab: number },
  notes: string[],
): Row {
  const { found, main, tab } = of;
  const content = contentOf(order, found);
  const usable = isUsable(found, content);
  const place = placeOf(found, { usable, content, need, delivery, override: order.override !== undefined });
  const same = found.paper.id === main.paper?.id;
  const title = same ? `${found.paper.title}, ${wordOf(found.edition)}` : found.paper.title;
  if (!usable) notes.push(unusableNote(found));
  const reason = place === 'by hand' ? byHandNote(title, { found, need, delivery }) : undefined;
  if (reason !== undefined) notes.push(reason);
  const kind = order.practice.papers[found.paper.kind];
  const { paper } = found;
  return makeRow({ order, delivery, paper, found: usable ? found : undefined, content, kind, need, place, title, tab });
}

function withRiders(row: Row, riders: readonly Rider[]): Row {
  const pages = riders.reduce(
    (sum, rider) => sum + (rider.pages.how === 'linked' ? rider.pages.content.pages.length : 0),
    0,
  );
  const tab: PlanTab = {
    ...row.tab,
    title: `${row.title}, with its ${inWords(riders)}`,
    pages: row.tab.pages + pages,
    riders: riders.map((rider) => rider.edition.id),
  };
  return { ...row, tab, riders };
}

type RiderWord = 'amendment' | 'extension' | 'next period';

function wordOf({ links }: Rider['edition']): RiderWord {
  const words = links.map(({ word }) => word);
  if (words.includes('extends')) return 'extension';
  return words.includes('amends') ? 'amendment' : 'next period';
}

/** "extension", "2 amendments and extension". */
function inWords(riders: readonly Rider[]): string {
  const groups = Map.groupBy(riders, ({ edition }) => wordOf(edition));
  return [...groups].map(([word, { length }]) => (length === 1 ? word : `${length} ${word}s`)).join(' and ');
}
