import { spawnSync } from 'node:child_process';
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { writePdf } from '../desk/small-lot.ts';
import { scratch } from '../electron/hosts-kit.ts';

const program = join(import.meta.dirname, '..', '..', 'core', 'cli', 'lotfile.ts');

/** Everything under a folder, itself included, that somebody else of this computer could look into. */
function openToOthers(folder: string): readonly string[] {
  const all = readdirSync(folder, { recursive: true, withFileTypes: true }).map(({ parentPath, name }) =>
    join(parentPath, name),
  );
  return [folder, ...all].filter((path) => (statSync(path).mode & 0o077) !== 0);
}

// Windows has no such modes: there a user's own folders are closed by inherited rights.
it.skipIf(process.platform === 'win32')(
  'a lot, its papers and a packet made of them are for this user’s eyes only, whatever the system’s usual is',
  async () => {
    using at = scratch();
    const deed = await writePdf(join(at.root, 'deed.pdf'), ['Deed']);
    const lot = join(at.root, 'lot');
    const out = join(at.root, 'packet');
    const run = (...words: readonly string[]) =>
      spawnSync('sh', ['-c', 'umask 000; exec "$@"', 'sh', process.execPath, program, ...words], {
        cwd: at.root,
        encoding: 'utf8',
      });
    expect(run('new-lot', lot, '--title', 'Ridge').status).toBe(0);
    expect(run('keep', deed, '--kind', 'deed', '--lot', lot).status).toBe(0);
    expect(run('assemble', '--paper', 'deed', '--out', out, '--lot', lot).stderr).toBe('');
    expect(openToOthers(lot)).toEqual([]);
    expect(openToOthers(out)).toEqual([]);
    expect(readdirSync(join(lot, 'originals')).length).toBe(1);
  },
);
