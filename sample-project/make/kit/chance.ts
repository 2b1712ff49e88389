/** A small seeded generator (mulberry32): the same seed always makes the same speckles and signatures. */
export class Chance {
  #state: number;

  constructor(seed: number | string) {
    this.#state = typeof seed === 'number' ? seed : [...seed].reduce((sum, c) => (sum * 31 + c.charCodeAt(0)) | 0, 7);
  }

  /** 0 up to, not including, 1. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }

  /** Roughly normal, mean 0, spread 1 (sum of uniform values). */
  bell(): number {
    return (this.next() + this.next() + this.next() + this.next() - 2) * 1.73;
  }
}
