import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { onTestFinished } from 'vitest';

const script = fileURLToPath(new URL('./lease-child.ts', import.meta.url));

export interface OtherProgram {
  readonly pid: number;
  /** Its next line. */
  says(): Promise<string>;
  /** Kills it as a power cut would: no clean-up. */
  kill(): Promise<void>;
  ended(): Promise<void>;
}

/** Starts a real second process that opens the lot. */
export function otherProgram(...args: readonly string[]): OtherProgram {
  const child = spawn(process.execPath, [script, ...args], { stdio: ['ignore', 'pipe', 'inherit'] });
  const ended = once(child, 'exit').then(() => undefined);
  onTestFinished(() => {
    child.kill('SIGKILL');
  });
  const lines: string[] = [];
  let rest = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    const pieces = `${rest}${text}`.split('\n');
    rest = pieces.pop() ?? '';
    lines.push(...pieces);
    child.emit('line');
  });
  return {
    pid: child.pid ?? -1,
    async says() {
      while (lines.length === 0) await Promise.race([once(child, 'line'), ended.then(() => lines.push('(it ended)'))]);
      return lines.shift() ?? '';
    },
    async kill() {
      child.kill('SIGKILL');
      await ended;
    },
    ended: () => ended,
  };
}
