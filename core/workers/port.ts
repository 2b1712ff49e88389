import type { FillFormDone, FillFormJob } from '../forms/file/fill-blank.ts';
import type { ReadFormDone, ReadFormJob } from '../forms/file/read-blank.ts';
import type { UnpackDone, UnpackJob } from '../intake/mail/unpack-model.ts';
import type {
  ReadDone,
  ReadJob,
  SuggestDone,
  SuggestJob,
  WriteOutDone,
  WriteOutJob,
} from '../intake/ocr/read-model.ts';
import type { GlimpseDone, GlimpseJob } from '../intake/pictures/glimpse-model.ts';
import type { KeepDone, KeepJob } from '../intake/rendition-model.ts';
import type { SlimDone, SlimJob } from '../intake/slim/slim-model.ts';

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
  /** The small picture of a photo or of a PDF's first page, and the day it was taken. */
  glimpse(job: GlimpseJob, control?: WorkControl): Promise<GlimpseDone>;
  /**
   * Takes an e-mail or a ZIP apart into an empty folder of its own; where it fails, the folder is gone.
   * @throws LotfileError as `keep` does.
   */
  unpack(job: UnpackJob, control?: WorkControl): Promise<UnpackDone>;
  /**
   * Makes kept pages smaller for an office's or mailbox's limit; `fits` says whether that was reached.
   * @throws LotfileError as `keep` does.
   */
  slim(job: SlimJob, control?: WorkControl): Promise<SlimDone>;
  /** The boxes of a fillable form. */
  readForm(job: ReadFormJob, control?: WorkControl): Promise<ReadFormDone>;
  /**
   * Fills a copy of a blank, read back by another reader.
   * @throws LotfileError as `keep` does.
   */
  fillForm(job: FillFormJob, control?: WorkControl): Promise<FillFormDone>;
  /** Ends idle workers. */
  close(): Promise<void>;
}
