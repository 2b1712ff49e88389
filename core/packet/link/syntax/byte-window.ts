import { readSync } from 'node:fs';

const windowSize = 32 * 1024;
const lookAhead = 4 * 1024;
/** How far behind the window the next object may begin to count as close. */
const near = 2 * 1024;

/** A piece of some file, in a room that is used again and again. */
interface Slot {
  readonly room: Buffer;
  owner: ByteWindow | undefined;
  piece: Buffer;
  from: number;
  used: number;
}

/** Few rooms for all files of the process: a packet of three hundred papers needs no more memory than one of three. */
const slots: Slot[] = [];
const mostSlots = 4;
let uses = 0;

/** Reads small pieces of a big file through a moving window, so that memory stays flat. */
export class ByteWindow {
  readonly #fd: number;
  readonly #size: number;
  #slot: Slot | undefined;

  constructor(fd: number, size: number) {
    this.#fd = fd;
    this.#size = size;
  }

  /** At least `wanted` bytes from `offset` (fewer at the end of the file). Valid until another piece is asked for. */
  at(offset: number, wanted: number): Buffer {
    uses += 1;
    if (wanted > windowSize) return this.#long(offset, wanted);
    const slot = this.#take();
    slot.used = uses;
    const start = offset - slot.from;
    const held = slot.piece.length - start;
    const atEnd = slot.from + slot.piece.length >= this.#size;
    if (start >= 0 && held > 0 && (held >= wanted || atEnd)) return slot.piece.subarray(start);
    // Objects close to each other are read in one go; between pictures only what was asked for.
    const dense = slot.piece.length > 0 && start >= 0 && start < slot.piece.length + near;
    const ahead = slot.room.subarray(0, dense ? windowSize : Math.max(wanted, lookAhead));
    slot.piece = slot.room.subarray(0, readFully(this.#fd, ahead, offset));
    slot.from = offset;
    return slot.piece;
  }

  #long(offset: number, wanted: number): Buffer {
    const room = Buffer.allocUnsafe(Math.min(wanted, this.#size - offset));
    return room.subarray(0, readFully(this.#fd, room, offset));
  }

  /** This file's own room, or the one that has rested longest. */
  #take(): Slot {
    if (this.#slot?.owner === this) return this.#slot;
    let slot = slots.toSorted((a, b) => a.used - b.used)[0];
    if (slot === undefined || slots.length < mostSlots) {
      slot = { room: Buffer.allocUnsafeSlow(windowSize), owner: undefined, piece: Buffer.alloc(0), from: 0, used: 0 };
      slots.push(slot);
    }
    slot.owner = this;
    slot.piece = slot.room.subarray(0, 0);
    slot.from = 0;
    this.#slot = slot;
    return slot;
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
