import { errandStates } from '../../../core/vocabulary/finding.ts';
import type { Station, WayModel } from './model.ts';

export const groupings = ['stretch', 'state', 'nothing'] as const;
export type Grouping = (typeof groupings)[number];
export const columns = ['number', 'errand', 'earliest', 'spare', 'fee'] as const;
export type Column = (typeof columns)[number];

export interface Order {
  readonly by: Column;
  readonly down: boolean;
}

export interface Wish {
  readonly grouping: Grouping;
  readonly order: Order;
  /** Undefined: all of them. */
  readonly stretch?: string | undefined;
  readonly office?: string | undefined;
}

export interface Group {
  readonly title: string;
  readonly stations: readonly Station[];
}

function rank(station: Station, by: Column): number | string {
  switch (by) {
    case 'number':
      return station.number;
    case 'errand':
      return station.title.toLowerCase();
    case 'earliest':
      return station.at;
    case 'spare':
      return station.row.spare ?? Number.POSITIVE_INFINITY;
    case 'fee':
      return station.row.fee ?? Number.POSITIVE_INFINITY;
  }
}

function inOrder(stations: readonly Station[], { by, down }: Order): readonly Station[] {
  const turn = down ? -1 : 1;
  return stations.toSorted((a, b) => {
    const [one, other] = [rank(a, by), rank(b, by)];
    if (one === other) return a.number - b.number;
    // What has no value stands last, whichever way the rest runs.
    if (one === Number.POSITIVE_INFINITY) return 1;
    if (other === Number.POSITIVE_INFINITY) return -1;
    return one < other ? -turn : turn;
  });
}

/** Groups in the order of the way (stretches) or of urgency (states); empty ones are left out. */
export function arranged(
  { stations, stretches }: Pick<WayModel, 'stations' | 'stretches'>,
  wish: Wish,
): readonly Group[] {
  const { grouping, order, stretch, office } = wish;
  const kept = stations.filter(
    (station) =>
      (stretch ?? station.stretch) === station.stretch && (office ?? station.row.office) === station.row.office,
  );
  const groupOf = (station: Station): string =>
    grouping === 'stretch' ? station.stretch : grouping === 'state' ? station.state : '';
  const urgent = ['sent back', 'can go', 'left with them', ...errandStates];
  const titles = grouping === 'stretch' ? stretches : grouping === 'state' ? [...new Set(urgent)] : [''];
  return titles
    .map((title) => ({
      title,
      stations: inOrder(
        kept.filter((station) => groupOf(station) === title),
        order,
      ),
    }))
    .filter((group) => group.stations.length > 0);
}
