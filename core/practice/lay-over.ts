import { didYouMean, type Problems } from './problems.ts';
import { at, type Entry, type ListTree, type MapTree, type ScalarTree, type Tree } from './yaml-tree.ts';

/** Said whole or not at all: half of an old condition under a new one would mean neither. */
const saidWhole = ['basis', 'when', 'unless'];
/** Of these a rule says one; a new one takes the place of the other. */
const eitherOr: readonly (readonly string[])[] = [
  ['kind', 'any_of'],
  ['event', 'errand', 'after'],
];

interface Work {
  readonly problems: Problems;
  /** The layer may only amend: an id that isn't there yet is a mistake. */
  readonly amendsOnly: boolean;
}

function isWord(tree: Tree, word: string): boolean {
  return tree.of === 'scalar' && tree.value === word;
}

function isListChange(tree: Tree): tree is MapTree {
  if (tree.of !== 'map' || tree.entries.size === 0) return false;
  return [...tree.entries.values()].every(
    ({ key, value }) => (key === 'add' || key === 'without') && (value.of === 'list' || value.of === 'scalar'),
  );
}

function items(tree: Tree | undefined): readonly Tree[] {
  if (tree === undefined || tree.of === 'map') return [];
  return tree.of === 'list' ? tree.items : [tree];
}

function scalars(trees: readonly Tree[]): readonly ScalarTree[] {
  return trees.filter((tree) => tree.of === 'scalar');
}

function changedList(base: Tree | undefined, change: MapTree, problems: Problems): ListTree {
  const kept = [...items(base)];
  const gone = scalars(items(at(change, 'without')));
  const texts = scalars(kept).map((one) => one.text);
  for (const one of gone) {
    if (!texts.includes(one.text)) {
      problems.add(one.at, `"${one.text}" is not in the list, so nothing can go${didYouMean(one.text, texts)}`);
    }
  }
  const rest = kept.filter((tree) => tree.of !== 'scalar' || !gone.some((one) => one.text === tree.text));
  return { of: 'list', at: change.at, items: [...rest, ...items(at(change, 'add'))] };
}

/** Levels at which keys are ids and not fields: `errands`, `errands.x.needs`, `papers.x.facts` ... */
function holdsIds(path: readonly string[]): boolean {
  if (path.length === 1) return path[0] !== 'basis';
  if (path.length !== 3) return false;
  const [section, , part] = path;
  return (
    (section === 'errands' && (part === 'needs' || part === 'before')) || (section === 'papers' && part === 'facts')
  );
}

/** Puts an entry where it says it goes: `first`, `before deed`, `after deed`. */
function placed(
  entries: Map<string, Entry>,
  { entry, said }: { readonly entry: Entry; readonly said: Tree },
  work: Work,
): Map<string, Entry> {
  // Only the layer that says "goes" moves a rule: what it went after may be gone when a later layer touches it.
  const goes = said.of === 'map' ? at(said, 'goes') : undefined;
  if (goes === undefined || goes.of !== 'scalar') return entries;
  const others = [...entries.values()].filter((one) => one.key !== entry.key);
  const match = /^(before|after) (\S+)$/.exec(goes.text);
  let index = goes.text === 'first' ? 0 : -1;
  if (match !== null) index = others.findIndex((one) => one.key === match[2]) + (match[1] === 'after' ? 1 : 0);
  if (match !== null && !others.some((one) => one.key === match[2])) {
    const known = others.map((one) => one.key);
    work.problems.add(goes.at, `There is no "${match[2]}" to go ${match[1]}${didYouMean(match[2] ?? '', known)}`);
    return entries;
  }
  if (index < 0) {
    work.problems.add(goes.at, `"${goes.text}" is no place: write "first", "before deed" or "after deed".`);
    return entries;
  }
  return new Map(others.toSpliced(index, 0, entry).map((one) => [one.key, one]));
}

/** A note says how the old fee was reckoned ("by floor area; ask"): a new fee without one stands by itself. */
function withoutOldNote(entries: Map<string, Entry>, over: MapTree): void {
  const fee = at(over, 'fee');
  if (fee !== undefined && !isWord(fee, 'drop') && at(over, 'fee_note') === undefined) entries.delete('fee_note');
}

function mergeMaps(base: MapTree | undefined, over: MapTree, path: readonly string[], work: Work): MapTree {
  let entries = new Map(base?.entries ?? []);
  for (const group of eitherOr) {
    const said = group.some((key) => {
      const entry = over.entries.get(key);
      return entry !== undefined && !isWord(entry.value, 'drop');
    });
    if (said) for (const key of group) entries.delete(key);
  }
  if (path.length === 2 && path[0] === 'errands') withoutOldNote(entries, over);
  for (const entry of over.entries.values()) {
    const old = entries.get(entry.key);
    if (isWord(entry.value, 'drop')) {
      const known = [...entries.keys()];
      if (old === undefined) {
        const sentence = `There is no "${entry.key}" here to drop${didYouMean(entry.key, known)}`;
        work.problems.add(entry.at, sentence);
      }
      entries.delete(entry.key);
      continue;
    }
    if (old === undefined && work.amendsOnly && holdsIds(path)) {
      const where = path.join('.');
      work.problems.add(entry.at, `There is no "${entry.key}" under ${where}${didYouMean(entry.key, entries.keys())}`);
      continue;
    }
    const value = layTree(old?.value, entry.value, [...path, entry.key], work);
    const laid = { key: entry.key, at: entry.at, value };
    entries.set(entry.key, laid);
    if (holdsIds(path)) entries = placed(entries, { entry: laid, said: entry.value }, work);
  }
  return { of: 'map', at: over.at, entries };
}

function layTree(base: Tree | undefined, over: Tree, path: readonly string[], work: Work): Tree {
  if (isListChange(over) && base?.of !== 'map') return changedList(base, over, work.problems);
  if (over.of !== 'map' || saidWhole.includes(path.at(-1) ?? '')) return over;
  return mergeMaps(base?.of === 'map' && over.whole !== true ? base : undefined, over, path, work);
}

/**
 * Lays one layer over what stands: maps by key, lists and plain values replaced, `drop` taken out,
 * `{add: [...], without: [...]}` changing a list.
 */
export function layOver(base: MapTree, over: MapTree, problems: Problems): MapTree {
  const amends = at(over, 'amends_only');
  return mergeMaps(base, over, [], { problems, amendsOnly: amends !== undefined && isWord(amends, 'yes') });
}
