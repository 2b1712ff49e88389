import { create } from 'zustand';

/** Where the window stands: `#/<lot>/<screen>/<rest...>`. Plain links, so that back and forward work. */
export interface Place {
  /** The lot's key in this host's list; empty on the first page. */
  readonly lot: string;
  readonly screen: string;
  readonly rest: readonly string[];
}

function readPlace(): Place {
  const [lot = '', screen = 'today', ...rest] = window.location.hash
    .replace(/^#\/?/, '')
    .split('/')
    .map((part) => decodeURIComponent(part));
  return { lot, screen, rest };
}

export const usePlace = create<Place>()(() => readPlace());

window.addEventListener('hashchange', () => usePlace.setState(readPlace()));

/** The lot and the page (a screen, with what it shows) of the address as it is now. */
export function placeNow(): { readonly lot: string; readonly page: string } {
  const { lot, screen, rest } = readPlace();
  return { lot, page: [screen, ...rest.slice(0, 1)].join('/') };
}

/** The address of a screen in the present lot (or another): for links. */
export function addressOf(screen: string, ...rest: readonly string[]): string {
  return `#/${[usePlace.getState().lot, screen, ...rest].map(encodeURIComponent).join('/')}`;
}

export function go(screen: string, ...rest: readonly string[]): void {
  window.location.hash = addressOf(screen, ...rest);
}

/** Leaves the present lot for another, or (empty) for the first page. */
export function goToLot(lot: string, screen = 'today'): void {
  window.location.hash = lot === '' ? '#/' : `#/${encodeURIComponent(lot)}/${screen}`;
}
