import { addDays } from '../../../core/vocabulary/days.ts';
import type { Gate, Station, WayModel } from './model.ts';
import { wordOf } from './words.ts';

/** Between two stations that can be pressed; between a gate, only to be read, and its neighbours. */
export const gap = 24;
export const gateGap = 20;
const letter = 6.1;
/** How steep the names stand; the drawing turns them by the same. */
const slant = (52 * Math.PI) / 180;

/** Width of words in the small size, near enough to keep them apart. */
export function widthOf(words: string): number {
  return words.length * letter;
}

/** What stands slanted over a number: cut where it would make the sheet too high. */
export function slantedWords(title: string): string {
  return title.length <= 44 ? title : `${title.slice(0, 42).trimEnd()} ...`;
}

/** How far back the sheet shows what is settled; the list has the rest. */
const behind = 183;

/** The stations that stand on the sheet. */
export function drawnStations({ today, stations }: WayModel): readonly Station[] {
  const first = addDays(today, -behind);
  return stations.filter(({ at, state }) => at >= first || state !== 'settled');
}

/** A slanted name with its word; what can be gone on stands bold. */
function slantedWidth(station: Station): number {
  const bold = station.state === 'can go' || station.state === 'sent back';
  return slantedWords(station.title).length * (bold ? 6.3 : 5.7) + wordOf(station).length * 5.5;
}

function gateWidth({ title }: Gate): number {
  return slantedWords(title).length * 6.9;
}

/** Length of the longest slanted name. */
function longest(model: WayModel): number {
  return Math.max(120, ...drawnStations(model).map(slantedWidth), ...model.gates.map(gateWidth));
}

/** How far a name reaches to the right of its number. */
export function reach(of: { readonly station: Station } | { readonly gate: Gate }): number {
  return ('station' in of ? slantedWidth(of.station) : gateWidth(of.gate)) * Math.cos(slant) + 8;
}

/** How high the names stand over the numbers. */
export function nameHeight(model: WayModel): number {
  return Math.round(longest(model) * Math.sin(slant));
}
