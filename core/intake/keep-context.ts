import type { KeepJob } from './rendition-model.ts';

/** What keeping one file is given besides the file: a place for scraps, and someone to tell. */
export interface KeepContext {
  readonly job: KeepJob;
  /** SHA-256 of the file as it came. */
  readonly source: string;
  /** A path for a scrap beside the output; whoever started the work sweeps `scrapsOf(output)`. */
  scrap(number: 1 | 2): string;
  /** Told after each page; awaited, so that the word gets out before the next one starts. */
  onPage(done: number, of: number): Promise<void>;
}

/** Every path that keeping may write besides its output. */
export function scrapsOf(output: string): readonly [string, string] {
  return [`${output}.scrap-1`, `${output}.scrap-2`];
}
