import type { PageText } from '../reading/page-text.ts';

/** The job of reading a file's words, handed to the worker program. Sound pages are read, not hostile originals. */
export interface ReadJob {
  readonly job: 'read';
  readonly input: string;
  /** The name the person knows it by, for sentences. */
  readonly name: string;
}

export interface ReadDone {
  readonly pages: readonly PageText[];
}
