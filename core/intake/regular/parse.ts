import type { Value } from './values.ts';

const whitespace = new Set([0x00, 0x09, 0x0a, 0x0c, 0x0d, 0x20]);
const delimiters = new Set([...'()<>[]{}/%'].map((char) => char.charCodeAt(0)));
const escapes: Readonly<Record<string, string>> = { n: '\n', r: '\r', t: '\t', b: '\b', f: '\f' };
const deepest = 500;

/** The bytes ended before the object did: read more of them. */
export class CutShort extends Error {
  override readonly name = 'CutShort';
}

/** Reads PDF objects from bytes held as a one-character-per-byte string. Damage throws: the caller's file isn't regular. */
export class Parser {
  readonly #source: string;
  #depth = 0;
  position: number;

  constructor(source: string, position = 0) {
    this.#source = source;
    this.position = position;
  }

  skipSpace(): void {
    for (; this.position < this.#source.length; this.position += 1) {
      const code = this.#source.charCodeAt(this.position);
      if (code === 0x25) this.#skipComment();
      else if (!whitespace.has(code)) return;
    }
  }

  /** The next run of regular characters: a keyword or a number. */
  word(): string {
    this.skipSpace();
    const start = this.position;
    while (this.position < this.#source.length) {
      const code = this.#source.charCodeAt(this.position);
      if (whitespace.has(code) || delimiters.has(code)) break;
      this.position += 1;
    }
    return this.#source.slice(start, this.position);
  }

  value(): Value {
    this.skipSpace();
    const char = this.#source[this.position];
    if (char === undefined) throw new CutShort('The object is cut short.');
    if (char === '/') return { name: this.#name() };
    if (char === '(') return { text: this.#literal() };
    if (char === '[') return this.#nested(() => this.#list());
    if (char !== '<') return this.#plain();
    return this.#source[this.position + 1] === '<' ? this.#nested(() => this.#dict()) : { text: this.#hex() };
  }

  #nested<T>(read: () => T): T {
    this.#depth += 1;
    if (this.#depth > deepest) throw new Error('The object is nested too deeply.');
    const value = read();
    this.#depth -= 1;
    return value;
  }

  #skipComment(): void {
    while (this.position < this.#source.length && !'\r\n'.includes(this.#source.charAt(this.position))) {
      this.position += 1;
    }
  }

  #name(): string {
    this.position += 1;
    const start = this.position;
    while (this.position < this.#source.length) {
      const code = this.#source.charCodeAt(this.position);
      if (whitespace.has(code) || delimiters.has(code)) break;
      this.position += 1;
    }
    const raw = this.#source.slice(start, this.position);
    if (!raw.includes('#')) return raw;
    return raw.replace(/#([0-9a-fA-F]{2})/g, (_, hex: string) => String.fromCharCode(Number.parseInt(hex, 16)));
  }

  #literal(): string {
    let out = '';
    let open = 0;
    for (; this.position < this.#source.length; this.position += 1) {
      const char = this.#source.charAt(this.position);
      if (char === '\\') {
        this.position += 1;
        out += this.#escaped();
        continue;
      }
      if (char === '(') open += 1;
      if (char === ')') open -= 1;
      if (open === 0) {
        this.position += 1;
        return out.slice(1);
      }
      out += char;
    }
    throw new CutShort('A string is cut short.');
  }

  #escaped(): string {
    const octal = /^[0-7]{1,3}/.exec(this.#source.slice(this.position, this.position + 3))?.[0];
    if (octal !== undefined) {
      this.position += octal.length - 1;
      return String.fromCharCode(Number.parseInt(octal, 8) & 0xff);
    }
    const char = this.#source.charAt(this.position);
    if (char === '\r' && this.#source[this.position + 1] === '\n') this.position += 1;
    if (char === '\r' || char === '\n') return '';
    return escapes[char] ?? char;
  }

  #hex(): string {
    const end = this.#source.indexOf('>', this.position);
    if (end < 0) throw new CutShort('A string is cut short.');
    const digits = this.#source.slice(this.position + 1, end).replace(/[^0-9a-fA-F]/g, '');
    this.position = end + 1;
    return Buffer.from(digits.length % 2 === 0 ? digits : `${digits}0`, 'hex').toString('latin1');
  }

  #list(): Value[] {
    const items: Value[] = [];
    this.position += 1;
    for (;;) {
      this.skipSpace();
      if (this.#source[this.position] === ']') break;
      items.push(this.value());
    }
    this.position += 1;
    return items;
  }

  #dict(): Map<string, Value> {
    const entries = new Map<string, Value>();
    this.position += 2;
    for (;;) {
      this.skipSpace();
      if (this.#source.startsWith('>>', this.position)) break;
      if (this.position >= this.#source.length) throw new CutShort('A dictionary is cut short.');
      if (this.#source[this.position] !== '/') throw new Error('A dictionary has a key that is no name.');
      const key = this.#name();
      entries.set(key, this.value());
    }
    this.position += 2;
    return entries;
  }

  #plain(): Value {
    const word = this.word();
    if (word === 'null') return null;
    if (word === 'true' || word === 'false') return word === 'true';
    if (!/^[+-]?(\d+\.?\d*|\.\d+)$/.test(word)) throw new Error(`"${word.slice(0, 40)}" is no PDF object.`);
    return this.#reference(word) ?? Number(word);
  }

  #reference(word: string): Value | undefined {
    if (!/^\d+$/.test(word)) return undefined;
    const rest = /^\s+\d+\s+R(?![^\s()<>[\]{}/%])/.exec(this.#source.slice(this.position, this.position + 24));
    if (rest === null) return undefined;
    this.position += rest[0].length;
    return { ref: Number(word) };
  }
}
