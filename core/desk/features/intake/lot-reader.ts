import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { type ReadPart, readingRecipe, type WrittenPage } from '../../../intake/ocr/read-model.ts';
import { glimpseRecipe } from '../../../intake/pictures/glimpse-model.ts';
import type { PaperReading } from '../../../intake/reading/reading-model.ts';
import type { Rendition } from '../../../intake/rendition-model.ts';
import { fileHash } from '../../../packet/file-hash.ts';
import type { Lot } from '../../../store/index.ts';
import type { Day } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { Progress, WorkPort } from '../../../workers/port.ts';
import { plainPages } from './plain-pages.ts';

/** A file to be looked into. */
export interface Looked {
  readonly path: string;
  readonly name: string;
  /** SHA-256 of its bytes. */
  readonly sha: string;
}

/** By which hands, and how it is stopped. */
export interface Hands {
  readonly workers: () => Promise<WorkPort>;
  readonly signal: AbortSignal;
  readonly onProgress?: ((at: Progress) => void) | undefined;
  /** Opens a locked file; once its pages are made, nobody needs it again. */
  readonly password?: string | undefined;
}

/** Sound pages of a file: in the lot already, or waiting in the working folder for the paper to be kept. */
export interface Sound {
  readonly path: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly rendition: Omit<Rendition, 'rung'> & { readonly rung: string };
  readonly kept: boolean;
}

export interface Words {
  /** The file they were written out to. */
  readonly path: string;
  readonly written: readonly WrittenPage[];
}

export const smallEnding = `small-${glimpseRecipe}.jpg`;
const wordsEnding = `words-${readingRecipe}.json`;
const pagesEnding = `pages-${readingRecipe}.json`;

/** Readings kept in memory: a few hundred papers' worth, small each. */
const mostRemembered = 400;

/** Words that the file itself has stand in the search already, as it has them. */
export function seenTexts(written: readonly WrittenPage[]): readonly WrittenPage[] {
  return written.filter(({ source }) => source === 'picture');
}

/** Who asks for something that is under way already waits for the same. */
class Shared {
  readonly #under = new Map<string, Promise<unknown>>();

  async once<T>(key: string, work: () => Promise<T>, is: (found: unknown) => found is T): Promise<T> {
    const under = this.#under.get(key);
    if (under !== undefined) {
      const found = await under.catch(() => undefined);
      // Stopped by whoever began it: this one still wants it.
      if (is(found)) return found;
    }
    const begun = work();
    this.#under.set(key, begun);
    try {
      return await begun;
    } finally {
      if (this.#under.get(key) === begun) this.#under.delete(key);
    }
  }
}

function isSound(found: unknown): found is Sound {
  return typeof found === 'object' && found !== null && 'rendition' in found;
}

function isWords(found: unknown): found is Words {
  return typeof found === 'object' && found !== null && 'written' in found;
}

/**
 * Makes and remembers what can be worked out of a lot's files: sound pages, their words, what the words suggest. Each
 * once per file, by its hash; words outlive the run in cache/.
 */
export class LotReader implements Disposable {
  readonly #lot: Lot;
  readonly #closing = new AbortController();
  readonly #shared = new Shared();
  readonly #sound = new Map<string, Sound>();
  readonly #suggested = new Map<string, PaperReading>();
  #practice: { readonly sha: string; readonly path: string } | undefined;

  constructor(lot: Lot) {
    this.#lot = lot;
  }

  /** What is under way stops; files in the working folder go with the lot. */
  [Symbol.dispose](): void {
    this.#closing.abort();
    this.#sound.clear();
  }

  get closed(): boolean {
    return this.#closing.signal.aborted;
  }

  /** The hash of any file; that of one on the table is remembered. */
  async look(path: string, name: string): Promise<Looked> {
    const there = this.#lot.tableFileAt(path);
    const sha = there === undefined ? await fileHash(path) : await this.#lot.tableHash(there.name);
    if (sha === undefined) throw new LotfileError('not found', `"${name}" is gone.`, { about: name });
    return { path, name, sha };
  }

  /** Sound pages of a file, made unless they were. */
  async sound(file: Looked, hands: Hands): Promise<Sound> {
    const known = this.soundNow(file.sha);
    return known ?? this.#shared.once(`sound ${file.sha}`, () => this.#makeSound(file, hands), isSound);
  }

  /** Sound pages, where they were made already. */
  soundNow(sha: string): Sound | undefined {
    const waiting = this.#sound.get(sha);
    if (waiting !== undefined) return waiting;
    const kept = plainPages(this.#lot, sha);
    if (kept === undefined) return undefined;
    const { sha256, bytes, ...rendition } = kept;
    return { path: this.#lot.renditionPath(sha256), sha256, bytes, rendition, kept: true };
  }

  /** Hands waiting sound pages over to whoever keeps them: theirs from now on. */
  takeSound(sha: string): Sound | undefined {
    const waiting = this.#sound.get(sha);
    this.#sound.delete(sha);
    return waiting;
  }

  /** A file that was removed for good: its waiting pages go, and what was read of it. */
  forget(sha: string): void {
    const waiting = this.takeSound(sha);
    if (waiting !== undefined) rmSync(waiting.path, { force: true });
    this.#suggested.clear();
  }

  async #makeSound({ path, name, sha }: Looked, hands: Hands): Promise<Sound> {
    const output = this.#lot.temporaryPath();
    const workers = await hands.workers();
    try {
      const { password } = hands;
      const done = await workers.keep({ job: 'keep', input: path, name, output, password }, this.#control(hands));
      if (done.rendition.source !== sha) {
        throw new LotfileError('file refused', `"${name}" changed while it was being read.`, { about: name });
      }
      const made = { path: output, sha256: done.sha256, bytes: done.bytes, rendition: done.rendition, kept: false };
      if (this.closed) throw new LotfileError('stopped', 'Stopped.');
      this.#sound.set(sha, made);
      return made;
    } catch (error) {
      rmSync(output, { force: true });
      throw error;
    }
  }

  /** The words of a file, read unless they were. */
  async words(file: Looked, hands: Hands): Promise<Words> {
    const known = this.wordsNow(file.sha);
    return known ?? this.#shared.once(`words ${file.sha}`, () => this.#readWords(file, hands), isWords);
  }

  /** The words, where they were read already. */
  wordsNow(sha: string): Words | undefined {
    const path = this.#lot.cachedPath(sha, wordsEnding);
    const pages = this.#lot.cachedPath(sha, pagesEnding);
    if (path === undefined || pages === undefined) return undefined;
    const written: readonly WrittenPage[] = JSON.parse(readFileSync(pages, 'utf8'));
    return { path, written };
  }

  async #readWords(file: Looked, hands: Hands): Promise<Words> {
    const { path: input, sha256, kept } = await this.sound(file, hands);
    const output = this.#lot.temporaryPath();
    const workers = await hands.workers();
    const { written } = await workers.writeOut(
      { job: 'write out', input, name: file.name, output },
      this.#control(hands),
    );
    const list = this.#lot.temporaryPath();
    writeFileSync(list, JSON.stringify(written));
    this.#lot.keepCached(list, { sha: file.sha, ending: pagesEnding });
    const path = this.#lot.keepCached(output, { sha: file.sha, ending: wordsEnding });
    if (kept) this.#lot.putPageTexts(sha256, seenTexts(written));
    return { path, written };
  }

  /** Makes the small picture of a record's file; how many were made. */
  async small({ path: input, name, sha }: Looked, hands: Hands): Promise<number> {
    if (this.#lot.cachedPath(sha, smallEnding) !== undefined) return 0;
    const output = this.#lot.temporaryPath();
    const workers = await hands.workers();
    await workers.glimpse({ job: 'glimpse', input, name, output }, this.#control(hands));
    this.#lot.keepCached(output, { sha, ending: smallEnding });
    return 1;
  }

  /** What the words of one paper suggest, under the practice in force. */
  async suggest(
    parts: readonly ReadPart[],
    wishes: { readonly name: string; readonly today: Day; readonly kind?: string | undefined },
    hands: Hands,
  ): Promise<PaperReading> {
    const key = JSON.stringify([parts, wishes.kind, wishes.today, this.#lot.practiceSha()]);
    const known = this.#suggested.get(key);
    if (known !== undefined) return known;
    const workers = await hands.workers();
    const job = { job: 'suggest', parts, practice: this.#practicePath(), ...wishes } as const;
    const { reading } = await workers.suggest(job, this.#control(hands));
    this.#suggested.set(key, reading);
    const [oldest] = this.#suggested.keys();
    if (this.#suggested.size > mostRemembered && oldest !== undefined) this.#suggested.delete(oldest);
    return reading;
  }

  /** The practice as a file, written once for as long as it is in force. */
  #practicePath(): string {
    const sha = this.#lot.practiceSha();
    if (this.#practice?.sha === sha) return this.#practice.path;
    const path = this.#lot.temporaryPath();
    writeFileSync(path, JSON.stringify(this.#lot.practice()));
    this.#practice = { sha, path };
    return path;
  }

  #control({ signal, onProgress }: Hands) {
    return {
      signal: AbortSignal.any([signal, this.#closing.signal]),
      ...(onProgress === undefined ? {} : { onProgress }),
    };
  }
}
