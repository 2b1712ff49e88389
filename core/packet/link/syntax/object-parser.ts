import { characterSort, hexValue } from './characters.ts';
import { damaged } from './damage.ts';
import { PdfName, PdfRef, PdfString, type PdfValue, PdfVerbatim } from './values.ts';
import { wordAt } from './words.ts';

const maxDepth = 256;
const plainNumber = /^-?(?:0|[1-9]\d{0,14})(?:\.\d{1,9})?$/;

const byte = {
  open: 0x28,
  close: 0x29,
  less: 0x3c,
  greater: 0x3e,
  openArray: 0x5b,
  closeArray: 0x5d,
  slash: 0x2f,
  percent: 0x25,
  backslash: 0x5c,
  hash: 0x23,
  capitalR: 0x52,
} as const;

/** -1 past the end. */
const past = -1;

/**
 * Reads PDF objects from a piece of a file. `ranOut` is set as soon as a byte past the piece was wanted:
 * the answer is then worth nothing and the caller must come back with a longer piece.
 */
export class ObjectParser {
  readonly #bytes: Buffer;
  readonly #end: number;
  readonly #title: string;
  #at: number;
  #ranOut = false;

  constructor(bytes: Buffer, start: number, title: string) {
    this.#bytes = bytes;
    this.#at = start;
    this.#end = bytes.length;
    this.#title = title;
  }

  /** Offset of the next unread byte within the piece. */
  get at(): number {
    return this.#at;
  }

  /** A byte past the piece was wanted. */
  get ranOut(): boolean {
    return this.#ranOut;
  }

  /** What the piece holds from an offset on. */
  rest(from: number): Buffer {
    return this.#bytes.subarray(from);
  }

  /** Reads one whole object. @throws LotfileError `paper damaged` */
  value(depth = 0): PdfValue {
    if (depth > maxDepth) throw this.#bad('its objects are nested too deeply');
    const first = this.#skipSpace();
    if (first === byte.slash) return this.#name();
    if (first === byte.open) return this.#literal();
    if (first === byte.openArray) return this.#array(depth);
    if (first === byte.less) {
      return this.#peek(1) === byte.less ? this.#dict(depth) : this.#hexString();
    }
    const start = this.#at;
    const word = this.keyword();
    if (word === 'true') return true;
    if (word === 'false') return false;
    if (word === 'null') return null;
    return this.#numberOrRef(word, start);
  }

  /** Reads a run of regular characters; empty when a delimiter or the end stands here. */
  keyword(): string {
    this.#skipSpace();
    const start = this.#at;
    let at = start;
    while (at < this.#end && characterSort[this.#bytes[at] ?? 0] === 0) at += 1;
    if (at >= this.#end) this.#ranOut = true;
    this.#at = at;
    return wordAt(this.#bytes, start, at);
  }

  /** Steps over the line end after the word `stream`. @throws LotfileError `paper damaged` */
  streamLineEnd(): void {
    if (this.#peek(0) === 13) this.#at += 1;
    if (this.#peek(0) !== 10) throw this.#bad('a stream does not begin on a new line');
    this.#at += 1;
  }

  #peek(ahead: number): number {
    const at = this.#at + ahead;
    if (at < this.#end) return this.#bytes[at] ?? past;
    this.#ranOut = true;
    return past;
  }

  #skipSpace(): number {
    for (;;) {
      const here = this.#peek(0);
      if (here === past) return past;
      if (here === byte.percent) this.#skipComment();
      else if (characterSort[here] === 1) this.#at += 1;
      else return here;
    }
  }

  #skipComment(): void {
    for (let here = this.#peek(0); here !== past && here !== 10 && here !== 13; here = this.#peek(0)) this.#at += 1;
  }

  #name(): PdfName {
    this.#at += 1;
    const start = this.#at;
    let escaped = false;
    let at = start;
    while (at < this.#end && characterSort[this.#bytes[at] ?? 0] === 0) {
      if (this.#bytes[at] === byte.hash) escaped = true;
      at += 1;
    }
    if (at >= this.#end) this.#ranOut = true;
    this.#at = at;
    const text = wordAt(this.#bytes, start, at);
    return new PdfName(escaped ? unescapeName(text) : text);
  }

  #literal(): PdfString {
    const start = this.#at;
    let depth = 0;
    for (;;) {
      const here = this.#peek(0);
      if (here === past) throw this.#bad('a text in it never ends');
      this.#at += here === byte.backslash ? 2 : 1;
      if (here === byte.open) depth += 1;
      if (here === byte.close) depth -= 1;
      if (depth === 0) return new PdfString(this.#bytes.toString('latin1', start, this.#at));
    }
  }

  #hexString(): PdfString {
    const start = this.#at;
    const end = this.#bytes.indexOf(byte.greater, start);
    if (end < 0) {
      this.#ranOut = true;
      throw this.#bad('a text in it never ends');
    }
    this.#at = end + 1;
    return new PdfString(this.#bytes.toString('latin1', start, this.#at));
  }

  #array(depth: number): PdfValue {
    this.#at += 1;
    const items: PdfValue[] = [];
    for (;;) {
      const here = this.#skipSpace();
      if (here === past) throw this.#bad('a list in it never ends');
      if (here === byte.closeArray) {
        this.#at += 1;
        return items;
      }
      items.push(this.value(depth + 1));
    }
  }

  #dict(depth: number): PdfValue {
    this.#at += 2;
    const entries = new Map<string, PdfValue>();
    for (;;) {
      const here = this.#skipSpace();
      if (here === byte.greater && this.#peek(1) === byte.greater) {
        this.#at += 2;
        return entries;
      }
      if (here !== byte.slash) throw this.#bad('a dictionary in it is broken');
      const key = this.#name().name;
      entries.set(key, this.value(depth + 1));
    }
  }

  #numberOrRef(word: string, start: number): PdfValue {
    const first = word.charCodeAt(0);
    if (first >= 48 && first <= 57) {
      const ref = this.#restOfRef(word);
      if (ref !== undefined) return ref;
    }
    if (plainNumber.test(word)) return Number(word);
    if (/^[+\-.\d]+$/.test(word)) return new PdfVerbatim(word);
    throw this.#bad(`something unexpected stands at byte ${start} of an object`);
  }

  /** Having read "12", looks whether " 0 R" follows; stays put when it doesn't. */
  #restOfRef(word: string): PdfRef | undefined {
    const back = this.#at;
    const here = this.#skipSpace();
    if (here >= 48 && here <= 57 && back !== this.#at) {
      const gen = this.keyword();
      const letter = this.#skipSpace();
      const next = letter === byte.capitalR ? this.#peek(1) : byte.slash;
      const ends = next === past || characterSort[next] !== 0;
      if (letter === byte.capitalR && ends && /^\d+$/.test(word) && /^\d+$/.test(gen)) {
        this.#at += 1;
        return new PdfRef(Number(word), Number(gen));
      }
    }
    this.#at = back;
    return undefined;
  }

  #bad(what: string): Error {
    return damaged(this.#title, what);
  }
}

function unescapeName(text: string): string {
  return text.replace(/#(..)/gs, (whole, pair: string) => {
    const high = hexValue(pair.charCodeAt(0));
    const low = hexValue(pair.charCodeAt(1));
    return high < 0 || low < 0 ? whole : String.fromCharCode(high * 16 + low);
  });
}
