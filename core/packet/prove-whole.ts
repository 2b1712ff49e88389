import { closeSync } from 'node:fs';
import { LotfileError } from '../vocabulary/errors.ts';
import { Aside } from './link/aside.ts';
import { openKept } from './link/open-sources.ts';

/** A kept file that must still be what was kept, although nothing is copied from it. */
export interface WholeFile {
  readonly path: string;
  readonly sha256: string;
  readonly title: string;
}

/**
 * Starts hashing kept files on a second core. `proved` waits for all of them; `close` gives up what still runs.
 * An original may be asked for by an office, so a packet whose original changed is not made from its sound pages.
 * @throws LotfileError `disk` where a file can't be opened; `proved` throws `paper damaged` naming the first changed.
 */
export function proveWhole(files: readonly WholeFile[]): { proved(): Promise<void>; close(): Promise<void> } {
  const aside = new Aside();
  const fds: number[] = [];
  const close = async (): Promise<void> => {
    await aside.end();
    for (const fd of fds.splice(0)) closeSync(fd);
  };
  const hashes = files.map((file) => {
    const fd = openKept(file.path, file.title);
    fds.push(fd);
    const hash = aside.whole(fd);
    hash.catch(() => undefined);
    return { file, hash };
  });
  const proved = async (): Promise<void> => {
    for (const { file, hash } of hashes) {
      if ((await hash) === file.sha256) continue;
      throw new LotfileError('paper damaged', `The original of "${file.title}" is no longer what was kept.`, {
        about: file.title,
        next: 'Run verify to see all that is damaged, then keep the paper again from where you got it.',
      });
    }
  };
  return { proved, close };
}
