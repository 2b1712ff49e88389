import { readSync } from 'node:fs';

const windowSize = 32 * 1024;
const lookAhead = 4 * 1024;
/** How far behind the window the next object may begin to count as close. */
const near = 2 * 1024;

/** Reads small pieces of a big file through one moving window, so that memory stays flat. */
export class ByteWindow {
  readonly #fd: number;
  readonly #size: number;
  readonly #room = Buffer.allocUnsafe(windowSize);
  #piece: Buffer = this.#room.subarray(0, 0);
  #from = 0;

  constructor(fd: number, size: number) {
    this.#fd = fd;
    this.#size = size;
  }

  /** At least `wanted` bytes from `offset` (fewer at the end of the file). Valid until the next call. */
  at(offset: number, wanted: number): Buffer {
    const start = offset - this.#from;
    const held = this.#piece.length - start;
    const atEnd = this.#from + this.#piece.length >= this.#size;
    if (start >= 0 && held > 0 && (held >= wanted || atEnd)) return this.#piece.subarray(start);
    // Objects close to each other are read in one go; between pictures only what was asked for.
    const dense = start >= 0 && start < this.#piece.length + near;
    const ahead = Math.min(dense ? windowSize : Math.max(wanted, lookAhead), Math.max(wanted, windowSize));
    const room = ahead <= windowSize ? this.#room : Buffer.allocUnsafe(ahead);
    const piece = room.subarray(0, readFully(this.#fd, room.subarray(0, ahead), offset));
    if (room === this.#room) {
      this.#piece = piece;
      this.#from = offset;
    }
    return piece;
  }
}

/** Fills `into` from the file as far as the file goes. Returns how many bytes came. */
export function readFully(fd: number, into: Buffer, position: number): number {
  let got = 0;
  while (got < into.length) {
    const read = readSync(fd, into, got, into.length - got, position + got);
    if (read === 0) break;
    got += read;
  }
  return got;
}
