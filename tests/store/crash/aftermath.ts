import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { sweepBeside } from '../../../core/store/bundle/beside.ts';
import { openBundle } from '../../../core/store/bundle/read-bundle.ts';
import type { Lot } from '../../../core/store/index.ts';
import { openIn, type Told } from './deeds.ts';

/** What must hold of everything under a root after a program died there, whenever it died. */

function shaOf(path: string): string {
  return createHash('sha256').update(readFileSync(path)).digest('hex');
}

function filesUnder(folder: string): readonly string[] {
  if (!existsSync(folder)) return [];
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .map((name) => join(folder, name))
    .filter((path) => statSync(path).isFile());
}

/** Problems that verify may name after a crash: files whose row was not written yet. Anything else is a loss. */
async function wholeLot(lot: Lot, wrong: string[]): Promise<void> {
  lot.sweep();
  const { problems } = await lot.verify();
  const named = new Set(problems.map(({ file }) => file));
  for (const { sort, say } of problems) if (sort !== 'orphan') wrong.push(`verify: ${say}`);
  for (const path of filesUnder(join(lot.folder, 'working'))) wrong.push(`left in working: ${path}`);
  for (const path of filesUnder(join(lot.folder, 'table'))) {
    if (statSync(path).size === 0) wrong.push(`empty on the table: ${path}`);
  }
  for (const name of readdirSync(join(lot.folder, 'packets'))) {
    const inside = readdirSync(join(lot.folder, 'packets', name));
    if (inside.length === 0) wrong.push(`an empty packet folder: ${name}`);
    const known = lot.packets().some(({ folder }) => folder.endsWith(name));
    for (const file of inside) {
      if (!known && !named.has(`packets/${name}/${file}`)) wrong.push(`not named by verify: ${name}/${file}`);
    }
  }
  for (const path of filesUnder(join(lot.folder, 'copies'))) {
    const db = new Database(path, { readonly: true });
    if (db.pragma('integrity_check', { simple: true }) !== 'ok') wrong.push(`a damaged copy: ${path}`);
    db.close();
  }
}

function bytesSomewhere(lot: Lot, sha: string, bytes: number): readonly string[] {
  return [...filesUnder(join(lot.folder, 'table')), ...filesUnder(join(lot.folder, 'originals'))].filter(
    (path) => statSync(path).size === bytes && shaOf(path) === sha,
  );
}

interface Known {
  readonly lot: Lot;
  readonly purging: ReadonlySet<string>;
  readonly undoing: boolean;
}

function purged(lot: Lot, sha: string): boolean {
  try {
    lot.originalPath(sha);
    return false;
  } catch {
    return true;
  }
}

/** What was told as done is there. */
async function stillThere(told: Told, { lot, purging }: Known, wrong: string[]): Promise<void> {
  switch (told.did) {
    case 'kept': {
      if (purging.has(told.sha)) return;
      const has = lot.editionContent([told.edition])[told.edition]?.originals.some(({ sha256 }) => sha256 === told.sha);
      if (has !== true || shaOf(lot.originalPath(told.sha)) !== told.sha) wrong.push(`lost: ${told.name}`);
      return;
    }
    case 'laid':
    case 'put aside':
    case 'taken up':
      if (bytesSomewhere(lot, told.sha, told.bytes).length !== 1) wrong.push(`not once on the table: ${told.sha}`);
      return;
    case 'assembled':
      lot.packet(told.id);
      return;
    case 'handed over':
      if (!lot.handovers().some(({ id }) => id === told.id)) wrong.push(`lost handover ${told.id}`);
      return;
    case 'merged':
      if (lot.view().papers.length < told.papers) wrong.push('lost what was merged');
      return;
    case 'undone':
      if (!lot.acts(100_000).some(({ id }) => id === told.act)) wrong.push(`lost undo ${told.act}`);
      return;
    case 'purged':
      if (!purged(lot, told.sha)) wrong.push(`not removed: ${told.sha}`);
      return;
    case 'begin purge':
    case 'begin undo':
    case 'copied':
    case 'bundle':
    case 'restored':
    case 'migrated':
    case 'begun a lot':
      return;
  }
}

/** A removing for good either has not begun or leaves no byte, once the lot is open again. */
function halfPurged(lot: Lot, sha: string): boolean {
  return purged(lot, sha) && filesUnder(join(lot.folder, 'originals')).some((path) => path.includes(sha));
}

async function besideLot(root: string, wrong: string[]): Promise<void> {
  sweepBeside(root);
  for (const name of readdirSync(root)) {
    const path = join(root, name);
    if (name === 'lot') continue;
    if (name.endsWith('.lot.zip')) {
      const bundle = await openBundle(path, name);
      await bundle.compareAll({});
      bundle.close();
    } else if (name.startsWith('.restoring-') && !name.startsWith(`.restoring-${process.pid}-`)) {
      // A process that only played dead still lives.
      wrong.push(`left beside: ${name}`);
    }
    if (/^(restored|old|other)( |$)/.test(name) && existsSync(join(path, 'lot.sqlite'))) {
      using lot = openIn(path);
      await wholeLot(lot, wrong);
      if (name.startsWith('old ') && lot.view().papers.length !== 2) wrong.push(`${name} lost papers`);
    } else if (name.startsWith('new ') && existsSync(join(path, 'lot', 'lot.sqlite'))) {
      using lot = openIn(join(path, 'lot'));
      if (lot.view().title !== 'Heron Lane') wrong.push(`${name} is half a lot`);
    }
  }
}

/** Nothing outside the lot is needed for the next round. */
export function clearBeside(root: string): void {
  for (const name of readdirSync(root)) if (name !== 'lot') rmSync(join(root, name), { recursive: true, force: true });
}

/**
 * Opens everything a dead program left, as the next one would, and says what is wrong.
 * @param told everything that was told as done so far
 * @returns sentences; none where all is well.
 */
export async function aftermath(root: string, told: readonly Told[]): Promise<readonly string[]> {
  const wrong: string[] = [];
  try {
    using lot = openIn(join(root, 'lot'));
    await wholeLot(lot, wrong);
    const purging = new Set(told.flatMap((one) => (one.did === 'begin purge' ? [one.sha] : [])));
    const known = { lot, purging, undoing: told.at(-1)?.did === 'begin undo' };
    for (const one of told) await stillThere(one, known, wrong);
    for (const sha of purging) if (halfPurged(lot, sha)) wrong.push(`half removed: ${sha}`);
    await besideLot(root, wrong);
  } catch (error) {
    wrong.push(error instanceof Error ? `${error.message}\n${error.stack ?? ''}` : String(error));
  }
  return wrong;
}
