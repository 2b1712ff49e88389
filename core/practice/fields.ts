import type { Lead, Span } from '../vocabulary/days.ts';
import type { Cents } from '../vocabulary/money.ts';
import { didYouMean, type Place } from './problems.ts';
import { exists, type Reference, type Scope } from './scope.ts';
import { itemsOf, leadOf, moneyOf, oneOf, spanOf, textOf, wholeNumber, yesOrNo } from './values.ts';
import { type MapTree, type Tree, at as valueAt } from './yaml-tree.ts';

/** Words every rule may carry besides its own: where it goes in the order, and on whose word it stands. */
const everywhere = ['goes', 'basis'];

/**
 * One rule being read: hands out its fields by name, remembers which were asked for,
 * and at the end tells every word it doesn't know.
 */
export class Fields {
  readonly scope: Scope;
  readonly at: Place;
  readonly about: string;
  readonly #map: MapTree;
  readonly #asked = new Set<string>(everywhere);

  constructor(scope: Scope, tree: Tree, about: { readonly name: string; readonly at: Place }) {
    this.scope = scope;
    this.about = about.name;
    this.at = about.at;
    if (tree.of === 'map') {
      this.#map = tree;
      return;
    }
    scope.problems.add(
      tree.at,
      `${about.name} is a map of fields like {title: ...}, but here stands a ${tree.of === 'list' ? 'list' : 'single value'}.`,
    );
    this.#map = { of: 'map', at: tree.at, entries: new Map() };
  }

  get(key: string): Tree | undefined {
    this.#asked.add(key);
    return valueAt(this.#map, key);
  }

  has(key: string): boolean {
    return this.#map.entries.has(key);
  }

  #read<T>(key: string, read: (tree: Tree, what: string) => T | undefined): T | undefined {
    const tree = this.get(key);
    return tree === undefined ? undefined : read(tree, `"${key}" of ${this.about}`);
  }

  text(key: string): string | undefined {
    return this.#read(key, (tree, what) => textOf(tree, what, this.scope.problems));
  }

  /** A text that has to be there. */
  needed(key: string): string {
    if (!this.has(key)) this.missing(key);
    return this.text(key) ?? '';
  }

  missing(key: string): void {
    this.#asked.add(key);
    this.scope.problems.add(this.at, `${this.about} has no "${key}".`);
  }

  yes(key: string, otherwise: boolean): boolean {
    return this.#read(key, (tree, what) => yesOrNo(tree, what, this.scope.problems)) ?? otherwise;
  }

  count(key: string): number | undefined {
    return this.#read(key, (tree, what) => wholeNumber(tree, what, this.scope.problems));
  }

  span(key: string): Span | undefined {
    return this.#read(key, (tree, what) => spanOf(tree, what, this.scope.problems));
  }

  lead(key: string): Lead | undefined {
    return this.#read(key, (tree, what) => leadOf(tree, what, this.scope.problems));
  }

  money(key: string): Cents | undefined {
    return this.#read(key, (tree, what) => moneyOf(tree, what, this.scope.problems));
  }

  word<T extends string>(key: string, words: readonly T[]): T | undefined {
    return this.#read(key, (tree, what) => oneOf(tree, { what, words }, this.scope.problems));
  }

  /** Free texts, as written. */
  texts(key: string): readonly string[] {
    return this.#read(key, (tree, what) => itemsOf(tree, what, this.scope.problems).map((item) => item.text)) ?? [];
  }

  /** Closed words; each unknown one is told. */
  words<T extends string>(key: string, words: readonly T[]): readonly T[] {
    const { problems } = this.scope;
    const read = (tree: Tree, what: string): readonly T[] =>
      itemsOf(tree, what, problems).flatMap((item) => oneOf(item, { what: `Each of ${what}`, words }, problems) ?? []);
    return this.#read(key, read) ?? [];
  }

  /** An id that has to exist. */
  ref(key: string, reference: Reference): string | undefined {
    const tree = this.get(key);
    const id = this.text(key);
    return tree !== undefined && id !== undefined && exists(this.scope, reference, id, tree.at) ? id : undefined;
  }

  refs(key: string, reference: Reference): readonly string[] {
    const read = (tree: Tree, what: string): readonly string[] =>
      itemsOf(tree, what, this.scope.problems)
        .filter((item) => exists(this.scope, reference, item.text, item.at))
        .map((item) => item.text);
    return this.#read(key, read) ?? [];
  }

  /** Tells the words nobody asked for. */
  close(): void {
    for (const { key, at } of this.#map.entries.values()) {
      if (this.#asked.has(key)) continue;
      const comma = / \S+ /.test(key) ? ' A text with a comma inside {...} has to stand in quotes.' : '';
      this.scope.problems.add(at, `${this.about} knows no "${key}"${didYouMean(key, this.#asked)}${comma}`);
    }
  }
}

/** "septic-permit" -> "Septic permit"; "lowest_floor" -> "Lowest floor". */
export function titleOf(id: string): string {
  const words = id.replaceAll(/[-_]/g, ' ');
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** Walks a section's entries in file order; ids must be lower-case words joined by "-" or "_". */
export function eachRule<T>(
  section: Tree | undefined,
  scope: Scope,
  read: (id: string, tree: Tree, at: Place) => T,
): Readonly<Record<string, T>> {
  if (section === undefined) return {};
  if (section.of !== 'map') {
    if (section.of === 'list' || section.value !== null) {
      scope.problems.add(section.at, 'This section is a map: each rule under its own id.');
    }
    return {};
  }
  const rules: Record<string, T> = {};
  for (const { key, at, value } of section.entries.values()) {
    if (!/^[a-z][a-z0-9]*(?:[-_][a-z0-9]+)*$/.test(key)) {
      scope.problems.add(at, `"${key}" is no id: use lower-case words joined by "-".`);
      continue;
    }
    rules[key] = read(key, value, at);
  }
  return rules;
}
