import type { KeepDone, KeepJob } from '../intake/rendition-model.ts';

/** How far long work has come: what, how many of how many. */
export interface Progress {
  readonly what: string;
  readonly done: number;
  readonly of: number;
}

/** Hostile bytes are only touched on the far side of this port. */
export interface WorkPort {
  /**
   * Runs one job in a worker process.
   * @throws LotfileError `file refused` with a sentence; `stopped` when the signal fires (the process is killed).
   */
  keep(
    job: KeepJob,
    control?: { readonly signal?: AbortSignal; readonly onProgress?: (at: Progress) => void },
  ): Promise<KeepDone>;
  /** Ends idle workers. */
  close(): Promise<void>;
}
