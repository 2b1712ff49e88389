import { writeSync } from 'node:fs';
import { join } from 'node:path';
import { watchDisk } from '../../../core/store/disk.ts';
import { deeds, openIn } from './deeds.ts';

/**
 * A program that does one deed after the other with the lot under a root until it is killed, and says each on a line of
 * its own the moment it is done. With a step it kills itself right before that step.
 */
const [root = '', salt = '', seed = '0', step = '0'] = process.argv.slice(2);

let state = Number(seed);
function next(below: number): number {
  // Numerical Recipes' linear congruential generator: any spread will do.
  state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
  return Math.floor((state / 2 ** 32) * below);
}

/** A line goes out whole, be the pipe full for a while because whoever hears it was paused. */
function say(what: object): void {
  let rest = Buffer.from(`${JSON.stringify(what)}\n`);
  while (rest.length > 0) {
    try {
      rest = rest.subarray(writeSync(1, rest));
    } catch (error) {
      if (!(error instanceof Error && 'code' in error && error.code === 'EAGAIN')) throw error;
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 5);
    }
  }
}

let left = Number(step);
if (left > 0) {
  watchDisk(() => {
    left -= 1;
    if (left === 0) process.kill(process.pid, 'SIGKILL');
  });
}

const lot = openIn(join(root, 'lot'));
lot.sweep();
say({ did: 'ready' });
const all = Object.entries(deeds);
for (let n = 0; ; n += 1) {
  const [name, deed] = all[next(all.length)] ?? ['', () => undefined];
  say({ did: 'doing', name });
  await deed({ root, lot, salt: `${salt}.${n}`, tell: say });
}
