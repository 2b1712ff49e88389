import { type ChildProcessWithoutNullStreams, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { aftermath, clearBeside } from './aftermath.ts';
import { furnish, type Told } from './deeds.ts';

const child = join(import.meta.dirname, 'crash-child.ts');

/** So many kills a lot lives through before a new one takes its place. */
const livesOfALot = 25;

export interface Killed {
  readonly kills: number;
  /** What each was doing when it was killed, counted. */
  readonly during: Readonly<Record<string, number>>;
  /** What was wrong, with the kill it was found after; none where all is well. */
  readonly wrong: readonly string[];
  /** Things told as done, all of them found again after every kill. */
  readonly told: number;
}

interface Round {
  readonly root: string;
  readonly salt: string;
  readonly seed: number;
}

type Line = Told | { readonly did: 'ready' } | { readonly did: 'doing'; readonly name: string };

function lineOf(text: string): Line | undefined {
  try {
    return JSON.parse(text);
  } catch {
    // The kill cut it short: it was not told.
    return undefined;
  }
}

/** Waits for the program to be at work, lets it go on for a random while, and kills it as a power cut would. */
async function killOne(running: ChildProcessWithoutNullStreams, seed: number): Promise<readonly Line[]> {
  let text = '';
  const ended = once(running, 'close');
  const ready = new Promise<void>((resolve) => {
    running.stdout.setEncoding('utf8').on('data', (piece: string) => {
      text += piece;
      if (text.includes('"ready"')) resolve();
    });
  });
  await Promise.race([ready, ended]);
  // Odd kills hit a random moment, even ones have set themselves a step to die at; both end in time.
  await Promise.race([pause(seed % 2 === 1 ? Math.random() * 300 : 4000), ended]);
  running.kill('SIGKILL');
  await ended;
  return text.split('\n').flatMap((line) => lineOf(line) ?? []);
}

function isTold(line: Line): line is Told {
  return line.did !== 'ready' && line.did !== 'doing';
}

async function round({ root, salt, seed }: Round): Promise<{ told: readonly Told[]; during: string; errors: string }> {
  const step = seed % 2 === 1 ? 0 : 1 + Math.floor(Math.random() * 150);
  const running = spawn(process.execPath, [child, root, salt, String(seed * 7919), String(step)]);
  let errors = '';
  running.stderr.setEncoding('utf8').on('data', (piece: string) => {
    errors += piece;
  });
  const lines = await killOne(running, seed);
  const during = lines.findLast((line) => line.did === 'doing');
  return { told: lines.filter(isTold), during: during?.did === 'doing' ? during.name : 'opening', errors };
}

/** Kills so many real programs in the middle of their work, and looks at what each left. */
export async function killMany(
  kills: number,
  onKill: (n: number, wrong: readonly string[]) => void = () => undefined,
): Promise<Killed> {
  const base = mkdtempSync(join(tmpdir(), 'lotfile-kills-'));
  const during: Record<string, number> = {};
  const wrong: string[] = [];
  let all = 0;
  let told: Told[] = [];
  let root = base;
  try {
    for (let n = 0; n < kills; n += 1) {
      if (n % livesOfALot === 0) {
        if (n > 0) rmSync(root, { recursive: true });
        root = join(base, String(n));
        told = [...(await furnish(root, `lot ${n}`))];
      }
      const done = await round({ root, salt: `kill ${n}`, seed: n });
      if (done.errors !== '') wrong.push(`kill ${n}: the program itself said: ${done.errors.slice(0, 2000)}`);
      told.push(...done.told);
      all += done.told.length;
      during[done.during] = (during[done.during] ?? 0) + 1;
      for (const say of await aftermath(root, told)) wrong.push(`kill ${n}, while "${done.during}": ${say}`);
      clearBeside(root);
      // Moved about later on purpose: where they lie now is nobody's promise.
      told = told.filter(
        ({ did }) => did === 'kept' || did === 'handed over' || did === 'begin purge' || did === 'purged',
      );
      onKill(n + 1, wrong);
    }
  } finally {
    rmSync(base, { recursive: true, force: true });
  }
  return { kills, during, wrong, told: all };
}
