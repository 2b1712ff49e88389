import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { JudgeAnswer, JudgeOrder } from './corpus-model.ts';

const program = fileURLToPath(new URL('./judge-program.ts', import.meta.url));
const patience = 120_000;
const mostOrders = 60;

/** Asks a process that is replaced when it hangs, breaks down, or has done enough (its memory never shrinks). */
export class Judge {
  #child: ChildProcess | undefined;
  #orders = 0;

  async ask(order: JudgeOrder): Promise<JudgeAnswer> {
    if (this.#orders >= mostOrders) this.close();
    const child = this.#child ?? fork(program, { stdio: ['ignore', 'ignore', 'ignore', 'ipc'] });
    this.#child = child;
    this.#orders += 1;
    const answered = await this.#hear(child, order);
    if (answered !== undefined) return answered;
    this.close();
    return order.ask === 'opens' ? { opens: 'breaks the reader' } : { differences: ['the judge broke down'] };
  }

  #hear(child: ChildProcess, order: JudgeOrder): Promise<JudgeAnswer | undefined> {
    return new Promise((resolve) => {
      const finish = (found: JudgeAnswer | undefined) => {
        clearTimeout(timer);
        child.removeAllListeners();
        resolve(found);
      };
      const timer = setTimeout(() => finish(undefined), patience);
      child.on('message', (found: JudgeAnswer) => finish(found));
      child.on('exit', () => finish(undefined));
      child.on('error', () => finish(undefined));
      child.send(order);
    });
  }

  close(): void {
    this.#child?.kill('SIGKILL');
    this.#child = undefined;
    this.#orders = 0;
  }
}
