import { create } from 'zustand';
import type { Wanted } from './arrange-records.ts';

interface Records extends Wanted {
  /** Ticked, to be corrected or removed together. */
  readonly ticked: readonly string[];
  /** On view, large. */
  readonly open?: string | undefined;
  /** Files chosen, to be noted with what they have in common. */
  readonly files?: { readonly sort: 'photo' | 'receipt'; readonly files: readonly File[] } | undefined;
}

/** How the person looks at the records; forgotten with the window. */
export const useRecords = create<Records>()(() => ({
  sieve: 'all',
  order: 'by day',
  trade: '',
  place: '',
  words: '',
  ticked: [],
}));

export function want(change: Partial<Wanted>): void {
  useRecords.setState(change);
}

export function tick(record: string, on: boolean): void {
  useRecords.setState(({ ticked }) => ({
    ticked: on ? [...ticked, record] : ticked.filter((each) => each !== record),
  }));
}
