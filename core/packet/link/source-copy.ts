import type { FinishedFile } from './finished-file.ts';
import type { OpenSource } from './open-sources.ts';
import type { SourcePage } from './page-walk.ts';
import type { PdfFile } from './syntax/pdf-file.ts';
import { serialise } from './syntax/serialise.ts';
import { emptyDict, isDict, type PdfDict, PdfRef, type PdfValue, without } from './syntax/values.ts';

/** A page of the source standing as a sheet of the finished file; the same page may stand there several times. */
export interface PageUse {
  readonly sheet: number;
  /** Number of the page object in the finished file. */
  readonly num: number;
  /** 0 for the first time this page is used, 1 for the second ... */
  readonly turn: number;
}

/** What a stream never takes along: other files, tagging of the old document, private data of programs. */
const leftBehind = new Set([
  'Length',
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
 * Copies objects of one source into the finished file: each at most once, only when something used leads to it,
 * never across to pages left out.
 */
export class SourceCopy {
  readonly id: string;
  /** 1-based place among the sources; fields are renamed with it. */
  readonly place: number;
  readonly file: PdfFile;
  readonly out: FinishedFile;
  readonly pages: readonly SourcePage[];
  readonly catalog: PdfDict;
  readonly uses = new Map<number, PageUse[]>();
  readonly #pageOf = new Map<number, number>();
  readonly #closed: Set<number>;
  readonly #news: Int32Array;
  readonly #queue: PdfRef[] = [];

  constructor({ id, place, file, walked }: OpenSource, out: FinishedFile) {
    this.id = id;
    this.place = place;
    this.file = file;
    this.out = out;
    this.pages = walked.pages;
    this.catalog = file.dictOf(file.table.trailer.get('Root')) ?? emptyDict;
    this.#news = new Int32Array(file.count);
    this.#closed = new Set(walked.nodes);
    const root = file.table.trailer.get('Root');
    if (root instanceof PdfRef) this.#closed.add(root.num);
    for (const [index, page] of this.pages.entries()) {
      if (!this.#pageOf.has(page.num)) this.#pageOf.set(page.num, index);
    }
  }

  /** Says that a page of this source stands on a sheet. Every use is told before anything is copied. */
  use(page: number, sheet: number, num: number): PageUse {
    const before = this.uses.get(page) ?? [];
    const use = { sheet, num, turn: before.length };
    this.uses.set(page, [...before, use]);
    return use;
  }

  /** 0-based page an object is, if it is one. */
  pageIndexOf(ref: PdfRef): number | undefined {
    return this.#pageOf.get(ref.num);
  }

  /** The sheet a page became: the one of the same round where the page was used several times. */
  sheetOf(page: number, turn: number): PageUse | undefined {
    const uses = this.uses.get(page);
    return uses?.[turn] ?? uses?.[0];
  }

  /** Finished number of an object; it is copied with the next `drain`. 0 for what may not come along. */
  readonly mapRef = (ref: PdfRef): number => {
    const known = this.#news[ref.num];
    if (known !== undefined && known !== 0) return known;
    if (!this.file.has(ref) || this.#closed.has(ref.num)) return 0;
    const page = this.#pageOf.get(ref.num);
    if (page !== undefined) return this.sheetOf(page, 0)?.num ?? 0;
    const num = this.out.reserve();
    this.#news[ref.num] = num;
    this.#queue.push(ref);
    return num;
  };

  /** True when the object already stands, or will stand, in the finished file. */
  isCopied(ref: PdfRef): boolean {
    return (this.#news[ref.num] ?? 0) !== 0;
  }

  /** Writes all objects asked for so far, and what they lead to. */
  drain(): void {
    for (let ref = this.#queue.pop(); ref !== undefined; ref = this.#queue.pop()) {
      const { value, stream } = this.file.object(ref);
      const num = this.#news[ref.num] ?? 0;
      if (stream === undefined || !isDict(value)) this.out.write(num, value, this.mapRef);
      else this.out.copyStream(num, this.#streamHead(value, stream.length), { fd: this.file.fd, place: stream });
    }
  }

  dictOf(value: PdfValue | undefined): PdfDict | undefined {
    return this.file.dictOf(value);
  }

  #streamHead(entries: PdfDict, length: number): string {
    return serialise(without(entries, leftBehind).set('Length', length), this.mapRef);
  }
}
