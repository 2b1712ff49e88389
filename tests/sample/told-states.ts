import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { type Desk, openDesk } from '../../core/desk/desk.ts';
import type { Day, SampleName } from '../../core/desk/door.ts';
import { sampleLayers } from '../../sample-project/practice-layers.ts';
import { sampleState, stateNames } from '../../sample-project/states.ts';
import { ToldLot } from '../../sample-project/told-lot.ts';

/** The invented lot in each of its states, told once for all test files that ask; each works on a copy. */

const cache = join(import.meta.dirname, '..', '..', 'node_modules', '.cache', 'told-states');

function stamp(): string {
  const hash = createHash('sha256');
  for (const name of stateNames) hash.update(JSON.stringify(sampleState(name)));
  for (const { text } of sampleLayers()) hash.update(text);
  return hash.digest('hex').slice(0, 16);
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

/** One process makes them, the others wait for it; a lock whose owner is gone counts for nothing. */
async function alone<T>(work: () => Promise<T>): Promise<T> {
  const lock = join(cache, 'lock');
  for (;;) {
    try {
      writeFileSync(lock, String(process.pid), { flag: 'wx' });
      break;
    } catch {
      const owner = existsSync(lock) ? Number(readFileSync(lock, 'utf8')) : 0;
      if (owner > 0 && !isAlive(owner)) rmSync(lock, { force: true });
      await setTimeout(200);
    }
  }
  try {
    return await work();
  } finally {
    rmSync(lock, { force: true });
  }
}

/** The main story once; the others part from it on their day, so that shared papers are kept once. */
async function tellAll(folder: string): Promise<void> {
  const desks: Desk[] = [];
  const desk = (): Desk => {
    const one = openDesk({ program: 'telling the sample for tests', today: () => sampleState('permit').day });
    desks.push(one);
    return one;
  };
  try {
    const [permit, framing, final, first] = (['permit', 'framing', 'final', 'first-month'] as const).map(sampleState);
    if (permit === undefined || framing?.shares === undefined || final === undefined || first === undefined) return;
    const early = ToldLot.begin(desk(), join(folder, 'first-month'), first.story).then((lot) => lot.tellTo(first.day));
    const main = await ToldLot.begin(desk(), join(folder, 'final'), final.story);
    await main.tellTo(permit.day);
    await main.fork(desk(), join(folder, 'permit'), permit.story);
    await main.tellTo(framing.shares);
    const other = await main.fork(desk(), join(folder, 'framing'), framing.story);
    await Promise.all([early, main.tellTo(final.day), other.tellTo(framing.day)]);
  } finally {
    for (const one of desks) await one.close();
  }
}

async function made(): Promise<string> {
  mkdirSync(cache, { recursive: true });
  const folder = join(cache, stamp());
  if (existsSync(folder)) return folder;
  return alone(async () => {
    if (existsSync(folder)) return folder;
    const making = join(cache, `making-${process.pid}`);
    await tellAll(making);
    renameSync(making, folder);
    return folder;
  });
}

export interface ToldState {
  /** A lot folder of this test's own. */
  readonly path: string;
  readonly day: Day;
}

/** A copy of the lot in a state, in `folder`. */
export async function toldState(name: SampleName, folder: string): Promise<ToldState> {
  const path = join(folder, name);
  cpSync(join(await made(), name), path, { recursive: true });
  return { path, day: sampleState(name).day };
}

/** A folder that goes with the test. */
export function scratchFolder(): { readonly folder: string; [Symbol.dispose](): void } {
  const folder = mkdtempSync(join(tmpdir(), 'lotfile-states-'));
  return { folder, [Symbol.dispose]: () => rmSync(folder, { recursive: true, force: true }) };
}
