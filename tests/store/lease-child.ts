import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { openLot } from '../../core/store/index.ts';

/**
 * A second program, run as a real process: opens the lot and says what came of it on one line;
 * then does what it was told and waits to be killed.
 */
const [folder = '', deed = 'hold', file = ''] = process.argv.slice(2);

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

try {
  if (deed === 'lock') {
    // Not one of ours: a backup program, or somebody's own tool, that holds the whole file.
    new Database(join(folder, 'lot.sqlite')).exec('BEGIN EXCLUSIVE');
    say('locked');
    Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
  }
  const lot = openLot(folder, { holder: { program: 'the other program', host: hostname(), pid: process.pid } });
  say('open');
  if (deed === 'close') lot.close();
  if (deed === 'leave') say('leaving');
  if (deed === 'hold') setInterval(() => undefined, 1000);
  if (deed === 'take in') await lot.takeInOriginal(file, 'big scan.pdf');
  if (deed === 'take in later') {
    await pause(300);
    await lot.takeInOriginal(file, 'big scan.pdf');
  }
  if (deed === 'half an act') {
    lot.act('Half an act', () => {
      for (let i = 0; i < 4000; i += 1) lot.addIdentity({ sort: 'owner', text: `owner ${i} `.repeat(1200) });
      say('in the middle');
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0);
    });
  }
} catch (error) {
  say(`refused: ${error instanceof Error ? error.message : String(error)}`);
}
