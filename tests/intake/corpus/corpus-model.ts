/** What the reader makes of a file before anything is done with it. */
export type Opens = 'opens' | 'asks for a password' | 'does not open' | 'has no pages' | 'breaks the reader';

/** What a judge is asked: does the file open; does what was kept, in a packet of its own, look like it. */
export type JudgeOrder =
  | { readonly ask: 'opens'; readonly path: string }
  | {
      readonly ask: 'same look';
      readonly original: string;
      readonly kept: string;
      readonly packet: string;
      readonly facts: string;
      readonly asPictures: boolean;
      readonly mostPages: number;
    };

/** `same look`: what differs, empty where nothing does. */
export interface JudgeAnswer {
  readonly opens?: Opens | undefined;
  readonly differences?: readonly string[] | undefined;
}

/** How one file of the heap fared. */
export interface Fared {
  readonly file: string;
  readonly sort: string;
  readonly opens: Opens;
  /** The rung that kept it; undefined where it was refused. */
  readonly rung?: string | undefined;
  readonly pages?: number | undefined;
  /** The sentence of a refusal, with the name left out. */
  readonly refused?: string | undefined;
  /** What looks otherwise in a packet than in the file as it came. */
  readonly differences: readonly string[];
  readonly notes: readonly string[];
  readonly milliseconds: number;
}
