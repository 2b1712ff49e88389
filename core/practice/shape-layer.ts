import { at, type Entry, isEmptyScalar, type MapTree, type Tree, withEntry } from './yaml-tree.ts';

/**
 * Brings the short ways of writing into the one long form and writes on every rule of a layer on whose
 * word it stands, so that laying layers over each other is a plain merge and each touched rule carries
 * the word of the layer that touched it.
 */

/** Maps that stand for one rule each and carry a basis of their own. */
const ruleSections = ['offices', 'papers', 'agreements', 'duties', 'holds', 'forms'];
/** Where the words of an errand's single values are laid down; no practice file writes it. */
export const saidKey = 'on whose word';
/** Parts of an errand that are rules themselves, with a basis of their own. */
const errandParts = ['needs', 'only_needs', 'before', 'deliver', 'basis'];

function mapEntries(map: MapTree, change: (entry: Entry) => Tree): MapTree {
  const entries = new Map<string, Entry>();
  for (const entry of map.entries.values()) entries.set(entry.key, { ...entry, value: change(entry) });
  return { ...map, entries };
}

function entry(key: string, value: Tree): Entry {
  return { key, at: value.at, value };
}

function isDrop(tree: Tree): boolean {
  return tree.of === 'scalar' && tree.value === 'drop';
}

/** `deed:` alone, or `licence: contractor-licence`, as the map it stands for. */
function spelledOut(tree: Tree, key: string): Tree {
  if (tree.of !== 'scalar' || isDrop(tree)) return tree;
  const empty: MapTree = { of: 'map', at: tree.at, entries: new Map() };
  return isEmptyScalar(tree) ? empty : withEntry(empty, entry(key, tree));
}

/** `[deed, plans]` as a map of empty rules keyed by those ids. */
function keyed(tree: Tree): Tree {
  if (tree.of !== 'list') return tree;
  const entries = new Map<string, Entry>();
  for (const item of tree.items) {
    if (item.of !== 'scalar') return tree;
    entries.set(item.text, { key: item.text, at: item.at, value: { of: 'map', at: item.at, entries: new Map() } });
  }
  return { of: 'map', at: tree.at, entries };
}

function withBasis(tree: Tree, basis: Tree): Tree {
  if (tree.of !== 'map' || tree.entries.has('basis')) return tree;
  return withEntry(tree, entry('basis', basis));
}

function shapeParts(tree: Tree, shortKey: string, basis: Tree): Tree {
  const map = keyed(tree);
  if (map.of !== 'map') return map;
  return mapEntries(map, (one) => withBasis(spelledOut(one.value, shortKey), basis));
}

function shapeErrand(tree: Tree, layerBasis: Tree): Tree {
  if (tree.of !== 'map') return tree;
  const basis = at(tree, 'basis') ?? layerBasis;
  const only = tree.entries.get('only_needs');
  let shaped = mapEntries(tree, (one) => {
    if (one.key === 'needs' || one.key === 'only_needs') return shapeParts(one.value, 'kind', basis);
    if (one.key === 'before') return shapeParts(one.value, 'after', basis);
    if (one.key === 'deliver') return withBasis(spelledOut(one.value, 'by'), basis);
    if (one.key === 'book') return spelledOut(one.value, 'ahead');
    return one.value;
  });
  if (only !== undefined && !tree.entries.has('needs')) {
    const value = at(shaped, 'only_needs');
    const entries = new Map([...shaped.entries].filter(([key]) => key !== 'only_needs'));
    if (value?.of === 'map') entries.set('needs', { ...only, key: 'needs', value: { ...value, whole: true } });
    shaped = { ...shaped, entries: value?.of === 'map' ? entries : shaped.entries };
  }
  return withWords(shaped, basis);
}

/**
 * Each plain value of an errand keeps the word it was said on: who told the fee said nothing of the rest. The errand
 * itself stands on the word of the layer that sets it up: the one that names its office, or says that it exists here.
 */
function withWords(errand: MapTree, basis: Tree): MapTree {
  const said = [...errand.entries.values()].filter(({ key }) => !errandParts.includes(key));
  if (said.length === 0) return errand;
  const word: Tree = basis.of === 'map' ? { ...basis, whole: true } : basis;
  const words: MapTree = { of: 'map', at: errand.at, entries: new Map(said.map(({ key }) => [key, entry(key, word)])) };
  const setsUp = errand.entries.has('office') || errand.entries.has('exists');
  const whole = setsUp && !errand.entries.has('basis') ? [entry('basis', basis)] : [];
  return [...whole, entry(saidKey, words)].reduce(withEntry, errand);
}

/** The layer's own default word, or common practice. */
export function layerBasis(layer: MapTree): Tree {
  return at(layer, 'basis') ?? { of: 'scalar', at: layer.at, value: 'common practice', text: 'common practice' };
}

/** One layer with every short form spelled out and a basis on every rule it writes or touches. */
export function shapeLayer(layer: MapTree): MapTree {
  const basis = layerBasis(layer);
  return mapEntries(layer, ({ key, value }) => {
    if (value.of !== 'map') return value;
    if (key === 'errands') return mapEntries(value, (one) => shapeErrand(one.value, basis));
    if (key === 'events') return mapEntries(value, (one) => spelledOut(one.value, 'title'));
    if (ruleSections.includes(key)) return mapEntries(value, (one) => withBasis(one.value, basis));
    return value;
  });
}
