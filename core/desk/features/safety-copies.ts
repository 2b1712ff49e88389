import type { Lot, Problem } from '../../store/index.ts';
import type { Day } from '../../vocabulary/days.ts';
import { type ErrorShape, LotfileError } from '../../vocabulary/errors.ts';
import type { AtLot } from '../context.ts';

const hourMs = 3_600_000;

/** Makes the day's whole copy of an open lot's database, and that of every further day it stays open. */
export class SafetyCopies implements Disposable {
  readonly #lot: Lot;
  readonly #tell: () => void;
  readonly #stop = new AbortController();
  readonly #timer: NodeJS.Timeout;
  #trouble: LotfileError | undefined;

  constructor({ lot, host, day, tellChanged }: AtLot) {
    this.#lot = lot;
    this.#tell = () => tellChanged('');
    this.#timer = setInterval(() => void this.make(host.today?.() ?? day), hourMs);
    this.#timer.unref();
  }

  [Symbol.dispose](): void {
    clearInterval(this.#timer);
    this.#stop.abort();
  }

  /** A copy that can't be made keeps nobody from working; it is told beside what was asked, on the slip, and by verify. */
  async make(day: Day): Promise<void> {
    const before = this.#trouble?.message;
    try {
      await this.#lot.copyOfDay(day, this.#stop.signal);
      this.#trouble = undefined;
    } catch (error) {
      if (!this.#stop.signal.aborted) this.#trouble = LotfileError.from(error);
    }
    // Windows asked for the slip while the copy was being made.
    if (this.#trouble?.message !== before && !this.#stop.signal.aborted) this.#tell();
  }

  /** Why the last copy could not be made. */
  trouble(): ErrorShape | undefined {
    if (this.#trouble === undefined) return undefined;
    const { code, message, next = 'Make a backup on another disk: bundle.', asks } = this.#trouble;
    return { code, message, next, asks };
  }

  problems(): readonly Problem[] {
    const { message, next = '' } = this.trouble() ?? {};
    return message === undefined ? [] : [{ sort: 'database', file: 'copies', papers: [], say: message, next }];
  }
}

export function safetyCopiesOf(at: AtLot): SafetyCopies {
  return at.beside({
    name: 'safety copies',
    make: (made) => new SafetyCopies(made),
    is: (found): found is SafetyCopies => found instanceof SafetyCopies,
  });
}
