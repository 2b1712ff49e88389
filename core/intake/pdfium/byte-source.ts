import { closeSync, fstatSync, openSync, readSync } from 'node:fs';

/** Bytes at a distance: a file is read where it is needed and never held whole. */
export interface ByteSource {
  readonly length: number;
  /** Fills `target` from `position`; false where the bytes aren't all there. */
  read(position: number, target: Uint8Array): boolean;
  close(): void;
}

function fill(fd: number, position: number, target: Uint8Array): boolean {
  let done = 0;
  while (done < target.length) {
    const got = readSync(fd, target, done, target.length - done, position + done);
    if (got === 0) return false;
    done += got;
  }
  return true;
}

/** A file on disk, open until closed. */
export function fileSource(path: string): ByteSource {
  const fd = openSync(path, 'r');
  return {
    length: fstatSync(fd).size,
    read: (position, target) => fill(fd, position, target),
    close: () => closeSync(fd),
  };
}

/** A file followed by bytes in memory, as if they had been appended to it (an incremental update). */
export function appendedSource(path: string, tail: Uint8Array): ByteSource {
  const base = fileSource(path);
  return {
    length: base.length + tail.length,
    read(position, target) {
      const fromFile = Math.max(0, Math.min(target.length, base.length - position));
      if (fromFile > 0 && !base.read(position, target.subarray(0, fromFile))) return false;
      const start = position + fromFile - base.length;
      const rest = tail.subarray(start, start + target.length - fromFile);
      target.set(rest, fromFile);
      return rest.length === target.length - fromFile;
    },
    close: () => base.close(),
  };
}
