import { readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { sweepCached } from './cache.ts';
import type { Ledger } from './ledger.ts';
import { fileTrouble } from './trouble.ts';

/** Pages of ours that lost their row in a crash are younger than this; older ones were put there by somebody. */
const youngDays = 2;

function isYoung(path: string, now: Date): boolean {
  return now.getTime() - statSync(path).mtimeMs < youngDays * 86_400_000;
}

function rowlessRenditions(ledger: Ledger): readonly string[] {
  const known = new Set(ledger.db.prepare<[], string>('SELECT sha FROM rendition WHERE purged = 0').pluck().all());
  return readdirSync(join(ledger.folder, 'renditions'), { recursive: true, encoding: 'utf8' })
    .filter((name) => {
      const sha = /(?:^|[\\/])([0-9a-f]{64})\.pdf$/.exec(name)?.[1];
      return sha !== undefined && !known.has(sha);
    })
    .map((name) => join('renditions', name))
    .filter((name) => isYoung(join(ledger.folder, name), ledger.now()));
}

/**
 * Removes what interrupted work left: what stands in working/ and was not handed
 * out by this program (the lease says nobody else works there), and young pages
 * without a row, which can be made again. An original without a row is never removed: it may be the only one.
 */
export function sweepLot(ledger: Ledger): readonly string[] {
  ledger.mustWrite();
  try {
    const working = readdirSync(join(ledger.folder, 'working'))
      .map((name) => join('working', name))
      .filter((name) => !ledger.issued.has(join(ledger.folder, name)));
    const swept = [...working, ...rowlessRenditions(ledger)];
    for (const name of swept) rmSync(join(ledger.folder, name), { force: true, recursive: true });
    sweepCached(ledger);
    return swept;
  } catch (error) {
    throw fileTrouble(error, ledger.folder, 'Clearing up the working folder');
  }
}
