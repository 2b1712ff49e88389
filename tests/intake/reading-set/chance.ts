/** Chance that can be told again: the same seed draws the same numbers on every machine (mulberry32). */
export class Chance {
  #state: number;

  constructor(seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 up to 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  }

  /** A whole number from `low` to `high`, both possible. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  between(low: number, high: number): number {
    return low + this.next() * (high - low);
  }

  yes(share: number): boolean {
    return this.next() < share;
  }

  pick<T>(of: readonly T[]): T {
    const found = of[Math.floor(this.next() * of.length)];
    if (found === undefined) throw new Error('nothing to pick from');
    return found;
  }

  /** "##" become digits, "@" capital letters: "BP##-####". */
  pattern(shape: string): string {
    return shape
      .replace(/#/g, () => String(this.whole(0, 9)))
      .replace(/@/g, () => this.pick(['B', 'C', 'D', 'F', 'K', 'L', 'M', 'P', 'R', 'T', 'W']));
  }
}
