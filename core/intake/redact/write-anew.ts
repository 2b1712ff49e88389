import type { RegularFile } from '../regular/regular-file.ts';
import { type Dict, isDict, isList, isRef, nameOf, type Value } from '../regular/values.ts';
import { RegularWriter } from '../regular/write-file.ts';
import { valueText } from '../regular/write-value.ts';

interface Made {
  readonly value: Value;
  readonly data?: Buffer | undefined;
}

/** Entries that say more than what is drawn; none of them is carried over. */
const traces = new Set(['Metadata', 'PieceInfo', 'AF', 'AA', 'StructParent', 'StructParents', 'Popup', 'IRT', 'RC']);
const elsewhere = new Set(['Page', 'Pages', 'Catalog']);

/** Writes a file of its own from chosen objects of another: only what is pointed at comes along. */
export class WriteAnew {
  readonly #file: RegularFile;
  readonly #numbers = new Map<number, number>();
  readonly #queue: (() => Made | Promise<Made>)[] = [];
  /** Objects that nothing may point at. */
  readonly gone = new Set<number>();
  /** What stands in the place of objects, in the numbers of the old file. */
  readonly changed = new Map<number, Value>();

  constructor(file: RegularFile) {
    this.#file = file;
  }

  /** Adds an object; its references are those of the new file. */
  add(make: () => Made | Promise<Made>): number {
    this.#queue.push(make);
    return this.#queue.length;
  }

  /** From now on references to the old object lead to the new one. */
  standsFor(old: number, fresh: number): void {
    this.#numbers.set(old, fresh);
  }

  #numberOf(old: number): number | undefined {
    const known = this.#numbers.get(old);
    if (known !== undefined) return known;
    if (this.gone.has(old)) return undefined;
    const { value } = this.#file.entry(old);
    if (isDict(value) && elsewhere.has(nameOf(this.#file.resolve(value.get('Type'))) ?? '')) return undefined;
    const number = this.add(() => {
      const data = this.#file.streamBytes(old);
      return { value: this.carried(this.changed.get(old) ?? this.#file.entry(old).value), data };
    });
    this.#numbers.set(old, number);
    return number;
  }

  /** A value of the old file as it stands in the new one. */
  carried(value: Value): Value {
    if (isRef(value)) {
      const number = this.#numberOf(value.ref);
      return number === undefined ? null : { ref: number };
    }
    if (isList(value)) return value.map((item) => this.carried(item));
    if (!isDict(value)) return value;
    return new Map([...value].filter(([key]) => !traces.has(key)).map(([key, item]) => [key, this.carried(item)]));
  }

  /** Writes everything; the first object added is the catalog. */
  async write(path: string, id: string): Promise<void> {
    const writer = new RegularWriter(path);
    try {
      for (let at = 0; at < this.#queue.length; at += 1) {
        const made = await this.#queue[at]?.();
        if (made === undefined) continue;
        const { value, data } = made;
        if (data === undefined) writer.add(valueText(value));
        else writer.addStream(entriesText(isDict(value) ? value : new Map()), data);
      }
      writer.finish(1, id);
    } finally {
      writer.close();
    }
  }
}

/** A stream's entries as they stand between its brackets; its length is written anew. */
export function entriesText(dict: Dict): string {
  const without = new Map([...dict].filter(([key]) => key !== 'Length'));
  return valueText(without).slice(3, -2).trim();
}
