import { closeSync, fstatSync, statSync } from 'node:fs';
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
 * How a file looked when its bytes were last hashed whole in this run of the program. Any program that writes to a
 * file changes the time of its last change, which no program can set back; so what looks the same is the same, short
 * of a failing disk, and that is `verify`'s to find. Only originals are spared: nothing in a packet is copied from them.
 */
const provedAs = new Map<string, string>();
/** Two changes within one tick of the file system's clock look like one: a file has to have rested for so long. */
const restedFor = 2_000_000_000n;

function looksOf(fd: number, now: bigint): string | undefined {
  const { dev, ino, size, mtimeNs, ctimeNs } = fstatSync(fd, { bigint: true });
  return now - ctimeNs < restedFor ? undefined : [dev, ino, size, mtimeNs, ctimeNs].join(' ');
}

interface Unproved {
  readonly file: WholeFile;
  readonly fd: number;
  readonly key: string;
  readonly looks: string | undefined;
}

function changed({ title }: WholeFile): LotfileError {
  return new LotfileError('paper damaged', `The original of "${title}" is no longer what was kept.`, {
    about: title,
    next: 'Run verify to see all that is damaged, then keep the paper again from where you got it.',
  });
}

/** Where one of several files can't be opened, those before it are not left open. */
function opened<T>(open: () => T, close: () => Promise<void>): T {
  try {
    return open();
  } catch (problem) {
    close().catch(() => undefined);
    throw problem;
  }
}

/**
 * Starts hashing kept files on a second core; one proved before in this run, and not touched since, is not read again.
 * `proved` waits for all of them; `close` gives up what still runs. An original may be asked for by an office, so a
 * packet whose original changed is not made from its sound pages.
 * @param freshFolder a folder made just now on the same disk: its time is the file system's own now.
 * @throws LotfileError `disk` where a file can't be opened; `proved` throws `paper damaged` naming the first changed.
 */
export function proveWhole(
  files: readonly WholeFile[],
  freshFolder: string,
): { proved(): Promise<void>; close(): Promise<void> } {
  const aside = new Aside();
  const fds: number[] = [];
  const now = statSync(freshFolder, { bigint: true }).ctimeNs;
  const close = async (): Promise<void> => {
    await aside.end();
    for (const fd of fds.splice(0)) closeSync(fd);
  };
  const begin = (): readonly (Unproved & { readonly hash: Promise<string> })[] => {
    const unproved = files.flatMap((file): Unproved[] => {
      const fd = openKept(file.path, file.title);
      fds.push(fd);
      const key = `${file.sha256} ${file.path}`;
      const looks = looksOf(fd, now);
      return looks !== undefined && provedAs.get(key) === looks ? [] : [{ file, fd, key, looks }];
    });
    const hashes = aside.wholes(unproved.map(({ fd }) => fd));
    for (const hash of hashes) hash.catch(() => undefined);
    return unproved.flatMap((one, n) => hashes.slice(n, n + 1).map((hash) => ({ ...one, hash })));
  };
  const hashes = opened(begin, close);
  const proved = async (): Promise<void> => {
    for (const { file, hash, key, looks } of hashes) {
      if ((await hash) !== file.sha256) throw changed(file);
      if (looks !== undefined) provedAs.set(key, looks);
    }
  };
  return { proved, close };
}
