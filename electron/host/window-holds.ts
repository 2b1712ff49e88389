/**
 * Which windows have a lot open. Windows share a lot, so that closing it in one must not take it from another; a lot
 * is let go when no window has it any more and nothing is at work in it.
 */
export class WindowHolds {
  readonly #windows = new Map<string, Set<string>>();
  readonly #working = new Map<string, number>();

  open(lot: string, window: string): void {
    const windows = this.#windows.get(lot) ?? new Set();
    this.#windows.set(lot, windows.add(window));
  }

  /** @returns whether it is one of the lots that windows have open. */
  close(lot: string, window: string): boolean {
    const windows = this.#windows.get(lot);
    windows?.delete(window);
    return windows !== undefined;
  }

  /** Some window has it open. */
  isOpen(lot: string): boolean {
    return (this.#windows.get(lot)?.size ?? 0) > 0;
  }

  /** A window went away without a word. */
  gone(window: string): void {
    for (const windows of this.#windows.values()) windows.delete(window);
  }

  async working<T>(lot: string | undefined, work: () => Promise<T>): Promise<T> {
    if (lot === undefined) return work();
    this.#working.set(lot, (this.#working.get(lot) ?? 0) + 1);
    try {
      return await work();
    } finally {
      const left = (this.#working.get(lot) ?? 1) - 1;
      if (left === 0) this.#working.delete(lot);
      else this.#working.set(lot, left);
    }
  }

  /** The lots nobody has open and nothing works in; they are forgotten here. */
  takeIdle(): readonly string[] {
    const idle = [...this.#windows].filter(([lot, windows]) => windows.size === 0 && !this.#working.has(lot));
    for (const [lot] of idle) this.#windows.delete(lot);
    return idle.map(([lot]) => lot);
  }
}
