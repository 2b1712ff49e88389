import { type FSWatcher, watch } from 'node:fs';
import { join } from 'node:path';
import type { PaperReading } from '../../../intake/reading/reading-model.ts';
import type { Lot, TableFile } from '../../../store/index.ts';
import type { Day } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { AtLot } from '../../context.ts';
import type { Hands, Looked, LotReader, Words } from './lot-reader.ts';
import { mayUnpack, unpackItem } from './unpack.ts';

/** What is known of a file on the table beyond its name. */
export interface Seen {
  readonly bytes: number;
  readonly changed: number;
  readonly state: 'waiting' | 'under way' | 'done';
  readonly sha?: string | undefined;
  readonly words?: Words | undefined;
  readonly reading?: PaperReading | undefined;
  /** Why nothing could be read of it. */
  readonly unread?: string | undefined;
}

/** How often the folder is looked at where the system tells nothing, and while something is still arriving. */
const pollMs = { calm: 4000, arriving: 700 } as const;
/** Several changes are told as one. */
const togetherMs = 250;

/** Told in place of an act: files came, went or were read. */
export const tableAct = 'on-table';

type Told = (act: string) => void;

/**
 * Looks after a lot's table for as long as the lot is open: sees what other programs put there, waits until it is
 * whole, and reads it, one file at a time and behind everything else.
 */
export class TableAttendant implements Disposable {
  readonly #lot: Lot;
  readonly #reader: LotReader;
  readonly #tell: Told;
  readonly #hands: Hands;
  readonly #day: () => Day;
  readonly #closing = new AbortController();
  readonly #seen = new Map<string, Seen>();
  readonly #kept: Looked[] = [];
  /** By hash; those done or refused stay known, so that none is tried twice. */
  readonly #small = new Map<string, Looked | 'done'>();
  #last = '';
  #watcher: FSWatcher | undefined;
  #timer: NodeJS.Timeout | undefined;
  #telling: NodeJS.Timeout | undefined;
  #reading = false;

  constructor(at: AtLot, reader: LotReader) {
    this.#lot = at.lot;
    this.#reader = reader;
    this.#tell = at.tellChanged;
    this.#hands = { workers: at.patientWorkers, signal: this.#closing.signal };
    this.#day = () => at.host.today?.() ?? at.day;
    this.#watch();
    this.#later(0);
  }

  [Symbol.dispose](): void {
    this.#closing.abort();
    clearTimeout(this.#timer);
    clearTimeout(this.#telling);
    this.#watcher?.close();
  }

  /** A kept paper whose words are still to be read: after what lies on the table. */
  readLater(file: Looked): void {
    this.#kept.push(file);
    this.#later(togetherMs);
  }

  /** A record's file without a small picture yet: last of all. */
  smallLater(file: Looked): void {
    if (this.#small.has(file.sha)) return;
    this.#small.set(file.sha, file);
    this.#later(togetherMs);
  }

  /** What is known of a file on the table as it is now. */
  seen({ name, bytes, changed }: TableFile): Seen | undefined {
    const seen = this.#seen.get(name);
    return seen?.bytes === bytes && seen.changed === changed ? seen : undefined;
  }

  #watch(): void {
    try {
      const watcher = watch(join(this.#lot.folder, 'table'), { persistent: false }, () => this.#later(togetherMs));
      // Not every disk can be watched; the slow look goes on.
      watcher.on('error', () => watcher.close());
      this.#watcher = watcher;
    } catch {
      this.#watcher = undefined;
    }
  }

  #later(ms: number): void {
    if (this.#closing.signal.aborted) return;
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.#look(), ms);
    this.#timer.unref();
  }

  /** One look at the folder; whatever is different from the last one is told. */
  async #look(): Promise<void> {
    let arriving = false;
    try {
      const files = await this.#lot.listTable();
      if (this.#closing.signal.aborted) return;
      arriving = files.some((file) => file.arriving);
      const now = JSON.stringify(
        files.map((file) => [file.name, file.bytes, file.changed, file.arriving, file.already]),
      );
      if (now !== this.#last) this.#soon();
      this.#last = now;
      for (const name of this.#seen.keys()) if (!files.some((file) => file.name === name)) this.#seen.delete(name);
      void this.#readAll();
    } catch {
      // The folder may be gone for a moment, or the disk away: whoever asks for the table is told; we look again.
    }
    this.#later(arriving ? pollMs.arriving : pollMs.calm);
  }

  #soon(): void {
    if (this.#telling !== undefined) return;
    this.#telling = setTimeout(() => {
      this.#telling = undefined;
      if (!this.#closing.signal.aborted) this.#tell(tableAct);
    }, togetherMs);
    this.#telling.unref();
  }

  async #next(): Promise<TableFile | undefined> {
    const files = (await this.#lot.listTable()).filter((file) => !file.arriving && file.already === undefined);
    for (const file of files) {
      if (this.seen(file) === undefined) this.#note(file, { state: 'waiting' });
    }
    return files.find((file) => this.seen(file)?.state === 'waiting');
  }

  #note({ name, bytes, changed }: TableFile, what: Omit<Seen, 'bytes' | 'changed'>): void {
    this.#seen.set(name, { bytes, changed, ...what });
  }

  async #readAll(): Promise<void> {
    if (this.#reading) return;
    this.#reading = true;
    try {
      for (let file = await this.#next(); file !== undefined; file = await this.#next()) {
        if (this.#closing.signal.aborted) return;
        this.#note(file, { state: 'under way' });
        this.#note(file, await this.#read(file));
        this.#soon();
      }
      for (let kept = this.#kept.shift(); kept !== undefined; kept = this.#kept.shift()) {
        await this.#reader.words(kept, this.#hands);
      }
      await this.#makeSmall();
    } catch {
      // As above: the next look goes on where this one ended.
    } finally {
      this.#reading = false;
    }
  }

  async #makeSmall(): Promise<void> {
    let made = 0;
    for (const [sha, file] of this.#small) {
      if (file === 'done') continue;
      if (this.#closing.signal.aborted) return;
      this.#small.set(sha, 'done');
      // A file of which no small picture can be made is listed by its name.
      made += await this.#reader.small(file, this.#hands).catch(() => 0);
      if (made % 24 === 1) this.#soon();
    }
    if (made > 0) this.#soon();
  }

  async #read({ path, name }: TableFile): Promise<Omit<Seen, 'bytes' | 'changed'>> {
    let sha: string | undefined;
    try {
      if (mayUnpack(path, name)) {
        await unpackItem(name, { lot: this.#lot, day: this.#day(), hands: this.#hands });
        return { state: 'done' };
      }
      const file = await this.#reader.look(path, name);
      sha = file.sha;
      const words = await this.#reader.words(file, this.#hands);
      const wishes = { name, today: this.#day() };
      const reading = await this.#reader.suggest([{ texts: words.path }], wishes, this.#hands);
      return { state: 'done', sha, words, reading };
    } catch (error) {
      const { message, next } = LotfileError.from(error);
      return { state: 'done', sha, unread: [message, next].filter(Boolean).join(' ') };
    }
  }
}
