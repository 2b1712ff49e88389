import { createHash } from 'node:crypto';
import { existsSync, realpathSync } from 'node:fs';
import { join, resolve } from 'node:path';
import * as z from 'zod';
import { type Day, isDay } from '../../core/desk/door.ts';
import { readPrivate, writePrivate } from './private-file.ts';

const day = z.custom<Day>((value) => typeof value === 'string' && isDay(value));
const remembered = z.object({ path: z.string().min(1), title: z.string(), lastOpened: day });
const file = z.object({ lots: z.array(remembered), leftOut: z.array(z.string()).default([]) });

export interface Remembered extends z.infer<typeof remembered> {
  /** The same from run to run. */
  readonly key: string;
  /** The folder is not where it was. */
  readonly gone: boolean;
}

const atMost = 30;
const leftOutAtMost = 200;

function keyOf(path: string): string {
  return createHash('sha256').update(path).digest('hex').slice(0, 24);
}

function trueName(path: string): string {
  try {
    return realpathSync.native(path);
  } catch {
    return resolve(path);
  }
}

/** The lots opened here before, newest first. Read anew each time: two windows' hosts may share the file. */
export class Recents {
  readonly #path: string;

  constructor(config: string) {
    this.#path = join(config, 'lots.json');
  }

  #read(): z.infer<typeof file> {
    return readPrivate(this.#path, file) ?? { lots: [], leftOut: [] };
  }

  /** Paths of the lots that were left out of the list, until one is opened again: they are not offered as found. */
  leftOut(): readonly string[] {
    return this.#read().leftOut;
  }

  list(): readonly Remembered[] {
    const { lots } = this.#read();
    return lots.map((lot) => ({ ...lot, key: keyOf(lot.path), gone: !existsSync(join(lot.path, 'lot.sqlite')) }));
  }

  has(path: string): boolean {
    const name = trueName(path);
    return this.list().some((lot) => lot.path === name);
  }

  remember(path: string, title: string, lastOpened: Day): void {
    const name = trueName(path);
    const others = this.list().filter((lot) => lot.path !== name);
    const leftOut = this.leftOut().filter((each) => each !== name);
    this.#write([{ path: name, title, lastOpened }, ...others], leftOut);
  }

  /** Leaves a lot out of the list; its folder stays as it is. */
  forget(key: string): boolean {
    const lots = this.list();
    const out = lots.find((lot) => lot.key === key);
    if (out === undefined) return false;
    const left = lots.filter((lot) => lot !== out);
    this.#write(left, out.gone ? this.leftOut() : [out.path, ...this.leftOut()]);
    return true;
  }

  #write(lots: readonly z.infer<typeof remembered>[], leftOut: readonly string[]): void {
    const plain = lots.slice(0, atMost).map(({ path, title, lastOpened }) => ({ path, title, lastOpened }));
    writePrivate(this.#path, { lots: plain, leftOut: leftOut.slice(0, leftOutAtMost) });
  }
}
