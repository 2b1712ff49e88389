import { setImmediate as nextTurn } from 'node:timers/promises';
import { LotfileError } from '../../vocabulary/errors.ts';

/** How the caller watches and stops long work. */
export interface LinkControl {
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?:
    | ((at: { readonly what: string; readonly done: number; readonly of: number }) => void)
    | undefined;
}

/** After so many bytes, or so many steps, the process gets a breath: windows stay alive, a stop is heard. */
const breathBytes = 8 * 1024 * 1024;
const breathSteps = 32;

/** Lets go of the thread now and then, tells how far the work is, hears a stop. */
export class Pace {
  readonly #control: LinkControl;
  #bytes = 0;
  #steps = 0;

  constructor(control: LinkControl) {
    this.#control = control;
  }

  /** @throws LotfileError `stopped` */
  async step(what: string, at: { readonly done: number; readonly of: number; readonly bytes: number }): Promise<void> {
    this.#steps += 1;
    const due = Math.abs(at.bytes - this.#bytes) >= breathBytes || this.#steps >= breathSteps || at.done === at.of;
    if (!due) return;
    this.#bytes = at.bytes;
    this.#steps = 0;
    this.#control.onProgress?.({ what, done: at.done, of: at.of });
    await nextTurn();
    this.check();
  }

  check(): void {
    if (this.#control.signal?.aborted === true) {
      throw new LotfileError('stopped', 'Building the packet was stopped. Nothing was left behind.', {
        next: 'Build it again whenever you like.',
      });
    }
  }
}
