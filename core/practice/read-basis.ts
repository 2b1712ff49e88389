import type { Basis } from '../vocabulary/practice.ts';
import { Fields } from './fields.ts';
import type { Scope } from './scope.ts';
import { saidKey } from './shape-layer.ts';
import { dayOf } from './values.ts';
import type { MapTree, Tree } from './yaml-tree.ts';

const common: Basis = { on: 'common practice' };

/** Reads `common practice`, `{common practice: after what, read: 2026-11-20}`, `{published: ..., read: 2026-11-20}` or `{told by: ..., on: 2026-11-20}`. */
export function readBasis(tree: Tree | undefined, scope: Scope): Basis {
  if (tree === undefined) return common;
  if (tree.of !== 'map') {
    if (tree.of === 'scalar' && tree.text === 'common practice') return common;
    const ways = '"common practice", {published: where, read: day} or {told by: who, on: day}';
    scope.problems.add(tree.at, `A basis is ${ways}.`);
    return common;
  }
  return readMap(tree, scope);
}

function readMap(tree: MapTree, scope: Scope): Basis {
  const fields = new Fields(scope, tree, { name: 'the basis', at: tree.at });
  if (fields.has('common practice')) return commonAfter(fields, scope);
  const told = fields.has('told by');
  const dayKey = told ? 'on' : 'read';
  const who = fields.needed(told ? 'told by' : 'published');
  if (!fields.has(dayKey)) fields.missing(dayKey);
  const dayTree = fields.get(dayKey);
  const day = dayTree === undefined ? undefined : dayOf(dayTree, `"${dayKey}" of the basis`, scope.problems);
  const note = told ? fields.text('note') : undefined;
  fields.close();
  if (day === undefined) return common;
  return told
    ? { on: 'the office told us', who, day, ...(note === undefined ? {} : { note }) }
    : { on: 'published', source: who, read: day };
}

/** Common practice that says what it is taken from; without a day where nobody has read it there. */
function commonAfter(fields: Fields, scope: Scope): Basis {
  const after = fields.needed('common practice');
  const tree = fields.get('read');
  const read = tree === undefined ? undefined : dayOf(tree, '"read" of the basis', scope.problems);
  fields.close();
  return { on: 'common practice', after, ...(read === undefined ? {} : { read }) };
}

/** The words single values of a rule stand on, where they are others than the rule's own. */
export function readWords(fields: Fields, whole: Basis): Readonly<Record<string, Basis>> | undefined {
  const tree = fields.get(saidKey);
  if (tree === undefined || tree.of !== 'map') return undefined;
  const own = JSON.stringify(whole);
  const words = [...tree.entries.values()]
    .map(({ key, value }) => [key, readBasis(value, fields.scope)] as const)
    .filter(([, basis]) => JSON.stringify(basis) !== own);
  return words.length === 0 ? undefined : Object.fromEntries(words);
}
