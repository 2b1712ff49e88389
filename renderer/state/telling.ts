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

let last = 0;
/** Troubles stay until they are read; what was done goes by itself. */
const staysFor = 12_000;

function tell(one: Omit<Told, 'id'>): void {
  last += 1;
  const id = last;
  useTelling.setState(({ told }) => ({ told: [...told.slice(-3), { ...one, id }] }));
  if (one.sort === 'done') setTimeout(() => useTelling.getState().dismiss(id), staysFor);
}

export function tellDone(say: string, undo?: string): void {
  tell({ sort: 'done', say, undo });
}

export function tellTrouble({ message, next, about }: ErrorShape): void {
  const say = about === undefined || message.includes(about) ? message : `${about}: ${message}`;
  tell({ sort: 'trouble', say, next });
}
