/** PDF objects as plain data (ISO 32000-1, 7.3). Names and strings hold one character per byte. */
export interface Name {
  readonly name: string;
}

export interface Text {
  readonly text: string;
}

/** An indirect reference; the generation is 0 throughout in the regular dialect. */
export interface Ref {
  readonly ref: number;
}

export type Dict = ReadonlyMap<string, Value>;
export type Value = null | boolean | number | Name | Text | Ref | readonly Value[] | Dict;

/** A parsed indirect object; `data` says where a stream's bytes lie in the file. */
export interface Entry {
  readonly value: Value;
  readonly data?: { readonly offset: number; readonly length: number } | undefined;
}

export function isDict(value: Value | undefined): value is Dict {
  return value instanceof Map;
}

export function isList(value: Value | undefined): value is readonly Value[] {
  return Array.isArray(value);
}

export function isRef(value: Value | undefined): value is Ref {
  return typeof value === 'object' && value !== null && 'ref' in value;
}

/** The name's text, or undefined where the value is no name. */
export function nameOf(value: Value | undefined): string | undefined {
  return typeof value === 'object' && value !== null && 'name' in value ? value.name : undefined;
}

/** Every reference inside a value, in order. */
export function refsIn(value: Value, found: number[] = []): number[] {
  if (isRef(value)) found.push(value.ref);
  else if (isList(value)) for (const item of value) refsIn(item, found);
  else if (isDict(value)) for (const item of value.values()) refsIn(item, found);
  return found;
}
