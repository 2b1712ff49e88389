import { create } from 'zustand';
import type { HostCard } from '../../core/desk/contract/host-acts.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { ErrorShape } from '../../core/vocabulary/errors.ts';

export interface LotState {
  readonly host?: HostCard;
  /** The open lot: its handle for this run of the host, and its lasting key. */
  readonly handle?: string;
  readonly key?: string;
  readonly title: string;
  /** The day everything is read as of; undefined for the host's own today. */
  readonly day?: Day;
  readonly opening: boolean;
  readonly trouble?: ErrorShape;
  readonly hostHere: boolean;
}

export const useLot = create<LotState>()(() => ({ title: '', opening: true, hostHere: true }));

/** The day everything is read as of. */
export function useDay(): Day {
  return useLot(({ day, host }) => day ?? host?.today ?? '1970-01-01');
}
