/** A figure in place: our arithmetic with the numbers a paper carries, beside what the paper and the rules say. Words only. */
export interface FigureRow {
  readonly figure: string;
  readonly title: string;
  /** "6.25 air changes per hour"; undefined where something it needs is not known. */
  readonly words?: string | undefined;
  /** The answer lies outside what it usually is: look at the numbers again. */
  readonly unusual: boolean;
  readonly parts: readonly {
    readonly title: string;
    readonly words?: string | undefined;
    readonly unusual: boolean;
    readonly edition?: string | undefined;
  }[];
  /** The same number as a licensed person's paper prints it. */
  readonly printed: readonly {
    readonly from: string;
    readonly words: string;
    readonly agrees?: boolean | undefined;
    readonly edition?: string | undefined;
  }[];
  /** The paper agrees with another usual way of reckoning it: its title. */
  readonly otherWay?: string | undefined;
  /** Published limits, to compare; which one counts the office says. */
  readonly limits: readonly {
    readonly words: string;
    readonly source: string;
    readonly within?: boolean | undefined;
  }[];
  /** Rules of the practice that compare it. */
  readonly rules: readonly {
    readonly say: string;
    readonly words: string;
    readonly holds: boolean | 'unknown';
    readonly basis: string;
  }[];
  readonly source: string;
  readonly caution: string;
}
