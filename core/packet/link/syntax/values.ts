/** A name, with its #xx escapes undone; one character per byte. */
export class PdfName {
  readonly name: string;
  constructor(name: string) {
    this.name = name;
  }
}

/** An indirect reference. */
export class PdfRef {
  readonly num: number;
  readonly gen: number;
  constructor(num: number, gen: number) {
    this.num = num;
    this.gen = gen;
  }
}

/** A string exactly as it stood, delimiters and escapes included, so that copying never changes it. */
export class PdfString {
  readonly raw: string;
  constructor(raw: string) {
    this.raw = raw;
  }
}

/** A number written in an odd way ("+5", "4.", "--3"): kept as it stood, because readers differ on it. */
export class PdfVerbatim {
  readonly raw: string;
  constructor(raw: string) {
    this.raw = raw;
  }
}

/** A reference that already carries the finished file's number; only we make these. */
export class FinishedRef {
  readonly num: number;
  constructor(num: number) {
    this.num = num;
  }
}

export type PdfArray = readonly PdfValue[];
export type PdfDict = ReadonlyMap<string, PdfValue>;
export type PdfValue =
  | null
  | boolean
  | number
  | PdfName
  | PdfRef
  | FinishedRef
  | PdfString
  | PdfVerbatim
  | PdfArray
  | PdfDict;

/** Where a stream's bytes stand in its file. */
export interface PdfStreamPlace {
  readonly start: number;
  readonly length: number;
}

/** One indirect object: its value, and where its bytes are when it is a stream. */
export interface PdfObject {
  readonly value: PdfValue;
  readonly stream?: PdfStreamPlace | undefined;
}

export const emptyDict: PdfDict = new Map();

export function isDict(value: PdfValue | undefined): value is PdfDict {
  return value instanceof Map;
}

export function isArray(value: PdfValue | undefined): value is PdfArray {
  return Array.isArray(value);
}

/** The text of a name, or undefined for anything else. */
export function nameOf(value: PdfValue | undefined): string | undefined {
  return value instanceof PdfName ? value.name : undefined;
}

/** A number as readers take it; odd spellings are read leniently, anything else is undefined. */
export function numberOf(value: PdfValue | undefined): number | undefined {
  if (typeof value === 'number') return value;
  if (!(value instanceof PdfVerbatim)) return undefined;
  const read = Number.parseFloat(value.raw);
  return Number.isFinite(read) ? read : undefined;
}

export function name(text: string): PdfName {
  return new PdfName(text);
}

export function dict(entries: Readonly<Record<string, PdfValue | undefined>>): PdfDict {
  const made = new Map<string, PdfValue>();
  for (const [key, value] of Object.entries(entries)) if (value !== undefined) made.set(key, value);
  return made;
}

/** A copy of a dictionary without some keys. */
export function without(from: PdfDict, keys: ReadonlySet<string>): Map<string, PdfValue> {
  const made = new Map<string, PdfValue>();
  for (const [key, value] of from) if (!keys.has(key)) made.set(key, value);
  return made;
}
