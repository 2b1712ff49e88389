import { create } from 'zustand';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';
import { placeNow, usePlace } from './place.ts';

/** A way on that stands beside what was told. */
export interface ToldLink {
  readonly say: string;
  readonly to: string;
}

/** One thing told to the person; an act can be taken back from here. */
export interface Told {
  readonly id: number;
  readonly sort: 'done' | 'trouble';
  readonly say: string;
  readonly next?: string | undefined;
  readonly undo?: string | undefined;
  /** What can't be taken back is set right elsewhere: stands in place of Undo. */
  readonly instead?: ToldLink | undefined;
  /** The lot and the page it was told on. */
  readonly lot: string;
  readonly page: string;
  /** Told while a slip lay over the sheet. */
  readonly onSlip: boolean;
}

interface TellingState {
  readonly told: readonly Told[];
  readonly dismiss: (id: number) => void;
}

export const useTelling = create<TellingState>()((set) => ({
  told: [],
  dismiss: (id) => set(({ told }) => ({ told: told.filter((each) => each.id !== id) })),
}));

/** How many slips lie over the sheet: what is told then stands on the slip, for the sheet is out of reach. */
export const useSlips = create<{ readonly open: number }>()(() => ({ open: 0 }));

let last = 0;
/** Troubles stay until they are read; what was done goes by itself. */
const staysFor = 12_000;
/** More than this is a pile that nobody reads and that covers the sheet. */
const atOnce = 2;

/** What is on view of all that was told: troubles before what was done, the newest on top. */
export function onView(told: readonly Told[], on: 'sheet' | 'slip'): readonly Told[] {
  const newest = told.toReversed();
  // A trouble of the sheet is none of the slip's that was opened after it.
  const troubles = newest.filter(({ sort, onSlip }) => sort === 'trouble' && (on === 'sheet' || onSlip));
  return [...troubles, ...newest.filter(({ sort }) => sort === 'done')].slice(0, atOnce);
}

function tell(one: Omit<Told, 'id' | 'lot' | 'page' | 'onSlip'>): void {
  last += 1;
  const id = last;
  const here = { ...placeNow(), onSlip: useSlips.getState().open > 0 };
  useTelling.setState(({ told }) => ({ told: [...told.slice(-9), { ...one, ...here, id }] }));
  if (one.sort === 'done') setTimeout(() => useTelling.getState().dismiss(id), staysFor);
}

export function tellDone(say: string, back: { readonly undo?: string; readonly instead?: ToldLink } = {}): void {
  tell({ sort: 'done', say, ...back });
}

export function tellTrouble({ message, next, about }: ErrorShape): void {
  const say = about === undefined || message.includes(about) ? message : `${about}: ${message}`;
  tell({ sort: 'trouble', say, next });
}

// What was told belongs to where it was told: an undo to its lot, a trouble to its page; both go when one leaves.
usePlace.subscribe(() => {
  const { lot, page } = placeNow();
  const stays = (one: Told): boolean => {
    if (one.sort === 'trouble') return one.lot === lot && one.page === page;
    return one.lot === lot || (one.undo === undefined && one.instead === undefined);
  };
  useTelling.setState(({ told }) => (told.every(stays) ? { told } : { told: told.filter(stays) }));
});
