import type { EqualSpan } from '../link/aside.ts';
import type { PdfFile } from '../link/syntax/pdf-file.ts';
import { serialise } from '../link/syntax/serialise.ts';
import { isArray, isDict, type PdfDict, PdfRef, type PdfStreamPlace, type PdfValue } from '../link/syntax/values.ts';

/** Keys of a stream that are rightly not carried. */
const notCarried = new Set([
  'StructParent',
  'StructParents',
  'PieceInfo',
  'Metadata',
  'AF',
  'F',
  'FFilter',
  'FDecodeParms',
  'Ref',
  'OPI',
]);

/**
 * Walks a source and the finished file side by side: the same shape, the same values, references leading to the
 * same things. Streams met on the way are collected in pairs, to be compared byte by byte.
 */
export class SameObjects {
  readonly #source: PdfFile;
  readonly #finished: PdfFile;
  readonly #pairs: EqualSpan[];
  /** Objects that never travel: pages, the nodes above them, the catalog. */
  readonly #apart: ReadonlySet<number>;
  readonly #met = new Map<number, number>();
  readonly #open: [PdfRef, PdfRef][] = [];

  constructor(
    source: PdfFile,
    finished: PdfFile,
    more: { readonly apart: ReadonlySet<number>; readonly pairs: EqualSpan[] },
  ) {
    this.#source = source;
    this.#finished = finished;
    this.#apart = more.apart;
    this.#pairs = more.pairs;
  }

  /** True when both say the same, all the way down. */
  same(mine: PdfValue | undefined, theirs: PdfValue | undefined): boolean {
    if (!this.#value(mine ?? null, theirs ?? null)) return false;
    for (let next = this.#open.pop(); next !== undefined; next = this.#open.pop()) {
      if (!this.#objects(next[0], next[1])) return false;
    }
    return true;
  }

  #objects(mine: PdfRef, theirs: PdfRef): boolean {
    const a = this.#source.object(mine);
    const b = this.#finished.object(theirs);
    if (a.stream === undefined || b.stream === undefined) return a.stream === b.stream && this.#value(a.value, b.value);
    if (!isDict(a.value) || !isDict(b.value)) return false;
    this.#pair(a.stream, b.stream);
    return a.stream.length === b.stream.length && this.#dicts(a.value, b.value, notCarried);
  }

  #pair(mine: PdfStreamPlace, theirs: PdfStreamPlace): void {
    this.#pairs.push({ fd: this.#source.fd, from: mine.start, at: theirs.start, length: mine.length });
  }

  #value(mine: PdfValue, theirs: PdfValue): boolean {
    if (mine instanceof PdfRef) return this.#refs(mine, theirs);
    if (isDict(mine)) return isDict(theirs) && this.#dicts(mine, theirs);
    if (isArray(mine)) {
      return (
        isArray(theirs) &&
        mine.length === theirs.length &&
        mine.every((item, i) => this.#value(item, theirs[i] ?? null))
      );
    }
    if (theirs instanceof PdfRef) return false;
    return mine === theirs || serialise(mine, () => 0) === serialise(theirs, () => 0);
  }

  #refs(mine: PdfRef, theirs: PdfValue): boolean {
    if (!this.#source.has(mine)) return theirs === null;
    if (this.#apart.has(mine.num)) return true;
    if (!(theirs instanceof PdfRef)) return false;
    const met = this.#met.get(mine.num);
    if (met !== undefined) return met === theirs.num;
    this.#met.set(mine.num, theirs.num);
    this.#open.push([mine, theirs]);
    return true;
  }

  #dicts(mine: PdfDict, theirs: PdfDict, except: ReadonlySet<string> = new Set()): boolean {
    for (const [key, value] of mine) {
      if (!except.has(key) && !this.#value(value, theirs.get(key) ?? null)) return false;
    }
    for (const key of theirs.keys()) if (!mine.has(key)) return false;
    return true;
  }
}
