import { neverByUs } from '../vocabulary/by-hand.ts';
import { type FormBox, type FormRows, type FormRule, type FormSource, printings } from '../vocabulary/forms.ts';
import { Fields } from './fields.ts';
import { readBasis } from './read-basis.ts';
import { readWhen } from './read-condition.ts';
import { readFormSource } from './read-form-source.ts';
import { subjectSorts } from './read-paper.ts';
import type { Rule } from './read-small-rules.ts';
import type { Scope } from './scope.ts';
import { itemsOf, textOf } from './values.ts';
import type { Entry, Tree } from './yaml-tree.ts';

/** Boxes of one form as they are read. */
interface BoxCase {
  readonly scope: Scope;
  /** "box "owner_1" of form "application"". */
  readonly about: string;
  readonly wordedByLaw: boolean;
  /** Facts of the paper the form becomes are not known here: ids are checked where the need is. */
  readonly field: string;
  readonly entry: Entry;
}

function sourcesOf(tree: Tree, { scope, about }: BoxCase): readonly FormSource[] {
  return itemsOf(tree, `What fills ${about}`, scope.problems).flatMap((item) => readFormSource(item, scope) ?? []);
}

/** `owner_1: owner 1`, `signature: by hand`: the short way. */
function shortBox(given: BoxCase): FormBox | undefined {
  const { entry, field } = given;
  if (entry.value.of === 'scalar' && entry.value.text.trim() === 'by hand') return { do: 'by hand', field };
  const sources = sourcesOf(entry.value, given);
  return sources.length === 0 ? undefined : { do: 'write', field, sources, between: ', ', words: {}, optional: false };
}

function printedWords(tree: Tree | undefined, { scope, about }: BoxCase): Readonly<Record<string, string>> {
  if (tree === undefined) return {};
  if (tree.of !== 'map') {
    scope.problems.add(tree.at, `"words" of ${about} is a map of answers and what the form calls them.`);
    return {};
  }
  const pairs = [...tree.entries.values()].map(({ key, value }): readonly [string, string] => [
    key,
    textOf(value, `"${key}" in "words" of ${about}`, scope.problems) ?? '',
  ]);
  return Object.fromEntries(pairs);
}

function longBox(given: BoxCase): FormBox | undefined {
  const { scope, about, entry, field } = given;
  const fields = new Fields(scope, entry.value, { name: about, at: entry.at });
  const when = readWhen(fields);
  const leave = fields.text('leave');
  const said = fields.text('say');
  const is = fields.get('is');
  const between = fields.get('between');
  const sources: readonly FormSource[] =
    said !== undefined ? [{ of: 'words', words: said }] : is === undefined ? [] : sourcesOf(is, given);
  const box = {
    // As written: the spaces around a stroke count.
    between: between?.of === 'scalar' && between.value !== null ? between.text : ', ',
    as: fields.word('as', printings),
    words: printedWords(fields.get('words'), given),
    fact: fields.text('fact'),
    optional: fields.yes('optional', false),
  };
  fields.close();
  if (leave !== undefined) return { do: 'leave', field, why: leave };
  if (when !== undefined) return { do: 'tick', field, when };
  if (sources.length > 0) return { do: 'write', field, sources, ...box };
  if (is === undefined && !fields.has('when') && !fields.has('unless'))
    scope.problems.add(entry.at, `${about} says neither "is", "say", "when" nor "leave".`);
  return undefined;
}

/** What a person does with their own hand, and what a law words, is never ours to fill. */
function allowed(box: FormBox | undefined, given: BoxCase): box is FormBox {
  if (box === undefined) return false;
  const { scope, about, entry, field, wordedByLaw } = given;
  if (box.do === 'by hand' || box.do === 'leave') return true;
  const why = neverByUs(field);
  if (why !== undefined) {
    scope.problems.add(entry.at, `${about} looks like ${why}: it is never filled. Write "by hand", or {leave: why}.`);
    return false;
  }
  const words = box.do === 'write' && box.sources.some(({ of }) => of === 'words');
  if (wordedByLaw && (box.do === 'tick' || words)) {
    scope.problems.add(
      entry.at,
      `${about}: on a form worded by law nothing is ticked or worded by us; write "by hand".`,
    );
    return false;
  }
  return true;
}

function readBoxes(tree: Tree | undefined, form: Pick<BoxCase, 'scope' | 'about' | 'wordedByLaw'>): readonly FormBox[] {
  if (tree === undefined) return [];
  if (tree.of !== 'map') {
    form.scope.problems.add(tree.at, `"boxes" of ${form.about} is a map: the name of each box and what fills it.`);
    return [];
  }
  return [...tree.entries.values()].flatMap((entry) => {
    const given: BoxCase = { ...form, about: `box "${entry.key}" of ${form.about}`, field: entry.key, entry };
    const box = entry.value.of === 'map' ? longBox(given) : shortBox(given);
    return allowed(box, given) ? [box] : [];
  });
}

function readRows(entry: Entry, form: Pick<BoxCase, 'scope' | 'about' | 'wordedByLaw'>): FormRows {
  const about = `rows "${entry.key}" of ${form.about}`;
  const fields = new Fields(form.scope, entry.value, { name: about, at: entry.at });
  for (const key of ['each', 'room', 'boxes']) if (!fields.has(key)) fields.missing(key);
  const each = fields.word('each', subjectSorts) ?? 'engagement';
  if (each !== 'engagement')
    form.scope.problems.add(entry.at, `${about} repeat for each engagement, not for each ${each}.`);
  const boxes = readBoxes(fields.get('boxes'), { ...form, about });
  const plain = boxes.find(({ field }) => !field.includes('{n}'));
  if (plain !== undefined)
    form.scope.problems.add(entry.at, `box "${plain.field}" of ${about} has no {n} in its name: it stands once.`);
  const rows: FormRows = { id: entry.key, each: 'engagement', room: fields.count('room') ?? 1, boxes };
  fields.close();
  return rows;
}

/** The mapping of one fillable form (`forms:` in a practice file). */
export function readForm({ id, tree, at }: Rule, scope: Scope): FormRule {
  const about = `form "${id}"`;
  const fields = new Fields(scope, tree, { name: about, at });
  const wordedByLaw = fields.yes('worded_by_law', false);
  const sha256 = fields.text('sha256');
  if (sha256 !== undefined && !/^[0-9a-f]{64}$/.test(sha256))
    scope.problems.add(at, `"sha256" of ${about} is 64 digits and letters a to f.`);
  const rows = fields.get('rows');
  if (rows !== undefined && rows.of !== 'map')
    scope.problems.add(rows.at, `"rows" of ${about} is a map: each kind of row under its own id.`);
  const form: FormRule = {
    id,
    title: fields.needed('title'),
    office: fields.ref('office', 'office'),
    knownBy: fields.texts('known_by'),
    sha256,
    flatten: fields.yes('flatten', false),
    wordedByLaw,
    boxes: readBoxes(fields.get('boxes'), { scope, about, wordedByLaw }),
    rows:
      rows?.of === 'map' ? [...rows.entries.values()].map((row) => readRows(row, { scope, about, wordedByLaw })) : [],
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return form;
}

/** "forms/application" names the form "application"; anything else is told. */
export function readFill(fields: Fields): string | undefined {
  const fill = fields.text('fill');
  if (fill === undefined || /^forms\/[a-z][a-z0-9]*(?:[-_][a-z0-9]+)*$/.test(fill)) return fill;
  fields.scope.problems.add(fields.at, `"fill" of ${fields.about} is written as "forms/application", not "${fill}".`);
  return undefined;
}
