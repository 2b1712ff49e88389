import { create } from 'zustand';

export const arrangements = ['by office', 'by date'] as const;
export type Arrangement = (typeof arrangements)[number];
export const sieves = ['all', 'in hand', 'lapsing or lapsed', 'still to get'] as const;
export type Sieve = (typeof sieves)[number];

interface Drawer {
  readonly arrangement: Arrangement;
  readonly sieve: Sieve;
  /** How far down the drawer was read, so that closing a paper comes back to its card. */
  readonly depth: number;
}

const place = 'lotfile.papers';

function remembered(): Drawer {
  const [arranged, sieved] = (window.localStorage.getItem(place) ?? '').split('|');
  return {
    arrangement: arrangements.find((each) => each === arranged) ?? 'by office',
    sieve: sieves.find((each) => each === sieved) ?? 'all',
    depth: 0,
  };
}

/** How the person keeps the drawer; arrangement and choice stay in this browser. */
export const useDrawer = create<Drawer>()(() => remembered());

export function keepDrawer(change: Partial<Drawer>): void {
  useDrawer.setState(change);
  const { arrangement, sieve } = useDrawer.getState();
  window.localStorage.setItem(place, `${arrangement}|${sieve}`);
}
