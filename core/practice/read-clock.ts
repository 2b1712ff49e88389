import { type Span, spanInWords } from '../vocabulary/days.ts';
import type { Clock } from '../vocabulary/practice.ts';
import { Fields } from './fields.ts';
import { didYouMean } from './problems.ts';
import { readWhen } from './read-condition.ts';
import type { Scope } from './scope.ts';
import { type Entry, type MapTree, type Tree, withEntry } from './yaml-tree.ts';

const sorts = ['stated', 'lasts', 'start_by', 'idle', 'finish_by', 'while', 'until', 'for good'] as const;
type ClockSort = (typeof sorts)[number];

/** The field that holds the value where a clock is written short: `lasts: 18 months` is `lasts: {span: 18 months}`. */
const shortField: Readonly<Record<ClockSort, string>> = {
  stated: 'fact',
  lasts: 'span',
  start_by: 'span',
  idle: 'span',
  finish_by: 'span',
  while: 'kind',
  until: 'event',
  'for good': 'label',
};

interface Written {
  readonly sort: ClockSort;
  readonly entry: Entry;
  readonly about: string;
}

function spelledOut({ sort, entry }: Written): MapTree | Tree {
  const { value } = entry;
  if (value.of !== 'scalar') return value;
  const empty: MapTree = { of: 'map', at: entry.at, entries: new Map() };
  const says = value.text;
  if (value.value === null || ((sort === 'stated' || sort === 'for good') && (says === 'yes' || says === 'true')))
    return empty;
  return withEntry(empty, { key: shortField[sort], at: value.at, value });
}

/** Not a word anyone writes: `unless` of these clocks, kept apart from the `unless` of a condition. */
const stopKey = 'unless this event';

const zero: Span = {};

/** The event a clock stops at, which it can't do without; `written` is the word it has in the file. */
function event(fields: Fields, key: string, written = key): string {
  if (!fields.has(key)) fields.scope.problems.add(fields.at, `${fields.about} has no "${written}".`);
  return fields.ref(key, 'event') ?? '';
}

function span(fields: Fields): Span {
  if (!fields.has('span')) fields.missing('span');
  return fields.span('span') ?? zero;
}

function readSorted(sort: ClockSort, fields: Fields): Clock {
  const label = fields.text('label');
  const when = readWhen(fields);
  const named = (otherwise: string): { label: string; when?: typeof when } => ({
    label: label ?? otherwise,
    ...(when === undefined ? {} : { when }),
  });
  switch (sort) {
    case 'stated': {
      const fact = fields.text('fact');
      return { ...named('the date printed on it'), sort, ...(fact === undefined ? {} : { fact }) };
    }
    case 'lasts': {
      const time = span(fields);
      return { ...named(`${spanInWords(time)} from issue`), sort, span: time };
    }
    case 'start_by': {
      const time = span(fields);
      return {
        ...named(`start within ${spanInWords(time)}`),
        sort,
        span: time,
        unless: event(fields, stopKey, 'unless'),
      };
    }
    case 'finish_by': {
      const time = span(fields);
      return {
        ...named(`finish within ${spanInWords(time)}`),
        sort,
        span: time,
        unless: event(fields, stopKey, 'unless'),
      };
    }
    case 'idle': {
      const time = span(fields);
      const since = fields.word('since', ['inspection', 'approved inspection']) ?? 'inspection';
      return { ...named(`${spanInWords(time)} since the last ${since}`), sort, span: time, since };
    }
    case 'while': {
      if (!fields.has('kind')) fields.missing('kind');
      const kind = fields.ref('kind', 'kind') ?? '';
      return { ...named(`while the ${kind} is good`), sort, kind };
    }
    case 'until': {
      const plus = fields.span('plus');
      const ends = event(fields, 'event');
      if (plus === undefined) return { ...named('until it no longer fits'), sort, event: ends };
      return { ...named(`until ${spanInWords(plus)} after the event`), sort, event: ends, plus };
    }
    case 'for good':
      return { ...named('for good'), sort };
  }
}

/** In `start_by` and `finish_by` the word `unless` names the event that stops the clock, not a condition. */
function eventUnless(tree: Tree, sort: ClockSort): Tree {
  if (tree.of !== 'map' || (sort !== 'start_by' && sort !== 'finish_by')) return tree;
  const entries = [...tree.entries.values()].map((one) => (one.key === 'unless' ? { ...one, key: stopKey } : one));
  return { ...tree, entries: new Map(entries.map((one) => [one.key, one])) };
}

function readOne(written: Written, scope: Scope): Clock {
  const name = `the clock "${written.sort}" of ${written.about}`;
  const tree = eventUnless(spelledOut(written), written.sort);
  const fields = new Fields(scope, tree, { name, at: written.entry.at });
  const clock = readSorted(written.sort, fields);
  fields.close();
  return clock;
}

/** `good:` as one word, as a map of clocks, or as a list of such maps where one sort comes twice. */
export function readClocks(tree: Tree | undefined, about: string, scope: Scope): readonly Clock[] {
  if (tree === undefined) return [];
  if (tree.of === 'list') return tree.items.flatMap((item) => readClocks(item, about, scope));
  if (tree.of === 'scalar') {
    const sort: ClockSort = tree.text === 'stated' || tree.text === 'for good' ? tree.text : 'lasts';
    const yes: Tree = { of: 'scalar', at: tree.at, value: 'yes', text: 'yes' };
    return [readOne({ sort, about, entry: { key: sort, at: tree.at, value: sort === 'lasts' ? tree : yes } }, scope)];
  }
  return [...tree.entries.values()].flatMap((entry) => {
    const sort = sorts.find((one) => one === entry.key);
    if (sort !== undefined) return [readOne({ sort, entry, about }, scope)];
    scope.problems.add(entry.at, `"good" of ${about} knows no clock "${entry.key}"${didYouMean(entry.key, sorts)}`);
    return [];
  });
}
