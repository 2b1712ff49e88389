import type {
  ReadDone,
  ReadJob,
  SuggestDone,
  SuggestJob,
  WriteOutDone,
  WriteOutJob,
} from '../intake/ocr/read-model.ts';
import type { KeepDone, KeepJob } from '../intake/rendition-model.ts';

/** How far long work has come: what, how many of how many. */
export interface Progress {
  readonly what: string;
  readonly done: number;
  readonly of: number;
}

/** How long work is watched and stopped. */
export interface WorkControl {
  readonly signal?: AbortSignal;
  readonly onProgress?: (at: Progress) => void;
}

/** Hostile bytes are only touched on the far side of this port. */
export interface WorkPort {
  /**
   * Runs one job in a worker process.
   * @throws LotfileError `file refused` with a sentence; `stopped` when the signal fires (the process is killed).
   */
  keep(job: KeepJob, control?: WorkControl): Promise<KeepDone>;
  /**
   * Reads the words of a PDF with their places; scans take about a second a page. Progress counts pages from 0.
   * @throws LotfileError as `keep` does.
   */
  read(job: ReadJob, control?: WorkControl): Promise<ReadDone>;
  /** Like `read`, with the words written to a file; what the answer leaves out stands there. */
  writeOut(job: WriteOutJob, control?: WorkControl): Promise<WriteOutDone>;
  /** What words that were written out suggest. */
  suggest(job: SuggestJob, control?: WorkControl): Promise<SuggestDone>;
  /** Ends idle workers. */
  close(): Promise<void>;
}
