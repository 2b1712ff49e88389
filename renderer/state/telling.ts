import { create } from 'zustand';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';

/** One thing told to the person; an act can be taken back from here. */
export interface Told {
  readonly id: number;
  readonly sort: 'done' | 'trouble';
  readonly say: string;
  readonly next?: string | undefined;
  readonly undo?: string | undefined;
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
export function onView(told: readonly Told[]): readonly Told[] {
  const newest = told.toReversed();
  const troubles = newest.filter(({ sort }) => sort === 'trouble');
  return [...troubles, ...newest.filter(({ sort }) => sort === 'done')].slice(0, atOnce);
}

function tell(one: Omit<Told, 'id'>): void {
  last += 1;
  const id = last;
  useTelling.setState(({ told }) => ({ told: [...told.slice(-9), { ...one, id }] }));
  if (one.sort === 'done') setTimeout(() => useTelling.getState().dismiss(id), staysFor);
}

export function tellDone(say: string, undo?: string): void {
  tell({ sort: 'done', say, undo });
}

export function tellTrouble({ message, next, about }: ErrorShape): void {
  const say = about === undefined || message.includes(about) ? message : `${about}: ${message}`;
  tell({ sort: 'trouble', say, next });
}
