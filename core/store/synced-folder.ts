import { existsSync, readdirSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { LotfileError } from '../vocabulary/errors.ts';

/** What gives away the root of a folder that a program copies to other computers behind our back. */
interface SyncSign {
  /** A file or folder in the root; "*" stands for any letters. */
  readonly holds?: string | undefined;
  /** The root's own name. */
  readonly named?: RegExp | undefined;
}

/**
 * Signs by which the common ones mark their roots, as their own pages tell (from memory, no source at hand): marker
 * files first, for a folder's name can be anything. Kept small: a missing one is no harm that was not there before.
 */
const signs: readonly SyncSign[] = [
  { holds: '.dropbox' },
  { holds: '.dropbox.cache' },
  { holds: '.stfolder' },
  { holds: '.sync_*.db' },
  { holds: '._sync_*.db' },
  { holds: '.owncloudsync.log' },
  { holds: '.nextcloudsync.log' },
  { holds: '.tmp.driveupload' },
  { holds: '.tmp.drivedownload' },
  { holds: '.megaignore' },
  { holds: '.SynologyWorkingDirectory' },
  { holds: '.849C9593-D756-4E56-8D6E-42412F2A707B' },
  { named: /^OneDrive( - .+)?$/ },
  { named: /^(com~apple~CloudDocs|Mobile Documents)$/ },
  { named: /^(Dropbox|Google Drive|GoogleDrive-.+|iCloud Drive|Nextcloud|ownCloud|pCloud Drive|Box Sync|MEGAsync)$/i },
];

function holds(folder: string, names: ReadonlySet<string>, pattern: string): boolean {
  if (!pattern.includes('*')) return existsSync(join(folder, pattern));
  const [before = '', after = ''] = pattern.split('*');
  return [...names].some((name) => name.startsWith(before) && name.endsWith(after));
}

function namesIn(folder: string): ReadonlySet<string> {
  try {
    return new Set(readdirSync(folder));
  } catch {
    return new Set();
  }
}

/** The nearest folder above (or the folder itself) that is copied to other computers; undefined where none is. */
export function syncedRoot(path: string): string | undefined {
  for (let folder = resolve(path); ; folder = dirname(folder)) {
    const name = folder.slice(dirname(folder).length).replace(/^[\\/]/, '');
    const names = namesIn(folder);
    const found = signs.some((sign) =>
      sign.holds === undefined ? sign.named?.test(name) === true : holds(folder, names, sign.holds),
    );
    if (found) return folder;
    if (folder === dirname(folder)) return undefined;
  }
}

/**
 * A lot is a database that one program at a time writes to. Copied behind its back, two computers each go on with a
 * half of it: so it is not worked on there, whatever is asked.
 * @throws LotfileError `wrong use` with the way out.
 */
export function refuseSyncedFolder(path: string): void {
  const root = syncedRoot(path);
  if (root === undefined) return;
  throw new LotfileError(
    'wrong use',
    'This folder is copied to other computers by itself, and two of them working on one lot would ruin it.',
    {
      about: root,
      next: 'Close the lot everywhere and move its whole folder to a place that is not synced. To share it, write a bundle (bundle) and put that file here; the other computer takes it over (restore, then merge).',
    },
  );
}
