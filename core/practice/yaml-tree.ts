import { isAlias, isMap, isScalar, isSeq, LineCounter, type Node, type Pair, parseDocument } from 'yaml';
import type { Place, Problems } from './problems.ts';

/** One practice file: its name as the person knows it, and its text. */
export interface Layer {
  readonly name: string;
  readonly text: string;
}

export interface Entry {
  readonly key: string;
  readonly at: Place;
  readonly value: Tree;
}

export interface MapTree {
  readonly of: 'map';
  readonly at: Place;
  readonly entries: ReadonlyMap<string, Entry>;
  /** Takes the place of what lower layers say instead of being laid over it. */
  readonly whole?: boolean;
}

export interface ListTree {
  readonly of: 'list';
  readonly at: Place;
  readonly items: readonly Tree[];
}

export interface ScalarTree {
  readonly of: 'scalar';
  readonly at: Place;
  readonly value: string | number | boolean | null;
  /** As written: "0070" stays "0070". */
  readonly text: string;
}

/** YAML with the place of every value, and nothing of YAML's cleverness. */
export type Tree = MapTree | ListTree | ScalarTree;

const longestText = 1_000_000;
const deepest = 12;

class TreeMaker {
  readonly #layer: string;
  readonly #lines: LineCounter;
  readonly #problems: Problems;

  constructor(layer: string, lines: LineCounter, problems: Problems) {
    this.#layer = layer;
    this.#lines = lines;
    this.#problems = problems;
  }

  place(offset: number): Place {
    const { line, col } = this.#lines.linePos(offset);
    return { layer: this.#layer, line: Math.max(1, line), column: Math.max(1, col) };
  }

  tree(node: unknown, at: Place, depth = 0): Tree {
    if (depth > deepest) {
      this.#problems.add(at, `This is nested more than ${deepest} deep; no rule needs that.`);
      return { of: 'scalar', at, value: null, text: '' };
    }
    if (isMap(node)) return this.#map(node.items, this.#at(node, at), depth);
    if (isSeq(node)) {
      const here = this.#at(node, at);
      return { of: 'list', at: here, items: node.items.map((item) => this.tree(item, here, depth + 1)) };
    }
    if (isAlias(node)) {
      this.#problems.add(this.#at(node, at), 'A practice file has no anchors and aliases: write the rule out again.');
    }
    if (!isScalar(node)) return { of: 'scalar', at, value: null, text: '' };
    const { value } = node;
    const kept = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean' ? value : null;
    const text = typeof kept === 'string' ? kept : (node.source ?? String(kept ?? ''));
    return { of: 'scalar', at: this.#at(node, at), value: kept, text };
  }

  #at(node: Node, otherwise: Place): Place {
    const start = node.range?.[0];
    return start === undefined ? otherwise : this.place(start);
  }

  #map(pairs: readonly Pair[], at: Place, depth: number): MapTree {
    const entries = new Map<string, Entry>();
    for (const pair of pairs) {
      const name = this.tree(pair.key, at, depth + 1);
      if (name.of !== 'scalar' || name.text === '') {
        this.#problems.add(name.at, 'The word before a ":" must be plain text.');
        continue;
      }
      const earlier = entries.get(name.text);
      if (earlier !== undefined) {
        this.#problems.add(name.at, `"${name.text}" stands here a second time (first on line ${earlier.at.line}).`);
        continue;
      }
      entries.set(name.text, { key: name.text, at: name.at, value: this.tree(pair.value, name.at, depth + 1) });
    }
    return { of: 'map', at, entries };
  }
}

/** What the YAML reader says; a text so deep that the reader gave up is told as that. */
function notRead(said: string): string {
  if (/stack/i.test(said)) return `This is nested far more than ${deepest} deep; no rule needs that.`;
  return `This can't be read as YAML: ${said.split('\n')[0]}.`;
}

/** Reads one layer's YAML; what can't be read at all becomes problems and an empty map. */
export function treeOf(layer: Layer, problems: Problems): MapTree {
  const top: Place = { layer: layer.name, line: 1, column: 1 };
  const empty: MapTree = { of: 'map', at: top, entries: new Map() };
  if (layer.text.length > longestText) {
    problems.add(top, 'This file is larger than a million letters: that is no practice file.');
    return empty;
  }
  const lines = new LineCounter();
  const maker = new TreeMaker(layer.name, lines, problems);
  try {
    const document = parseDocument(layer.text, { lineCounter: lines, uniqueKeys: false, prettyErrors: false });
    for (const fault of [...document.errors, ...document.warnings]) {
      problems.add(maker.place(fault.pos[0]), notRead(fault.message));
    }
    if (document.errors.length > 0 || document.contents === null) return empty;
    const tree = maker.tree(document.contents, top);
    if (tree.of === 'map') return tree;
    problems.add(tree.at, 'A practice file is a map: "errands:", "papers:" and so on, each on its own line.');
  } catch (error) {
    problems.add(top, notRead(error instanceof Error ? error.message : String(error)));
  }
  return empty;
}

/** The map's value at a key. */
export function at(map: MapTree, key: string): Tree | undefined {
  return map.entries.get(key)?.value;
}

/** The same map with one entry set (at its old place, or the end). */
export function withEntry(map: MapTree, entry: Entry): MapTree {
  const entries = new Map(map.entries);
  entries.set(entry.key, entry);
  return { ...map, entries };
}

export function isEmptyScalar(tree: Tree | undefined): boolean {
  return tree?.of === 'scalar' && tree.value === null;
}
