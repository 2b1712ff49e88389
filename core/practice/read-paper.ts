import { type FactSort, factSorts } from '../vocabulary/facts.ts';
import type { Extension, FactRule, PaperKind, Revival, SubjectSort } from '../vocabulary/practice.ts';
import { eachRule, Fields, titleOf } from './fields.ts';
import { readBasis } from './read-basis.ts';
import { readClocks } from './read-clock.ts';
import { readWhen } from './read-condition.ts';
import type { Rule } from './read-small-rules.ts';
import type { Scope } from './scope.ts';
import { oneOf } from './values.ts';
import type { Tree } from './yaml-tree.ts';

export const subjectSorts = ['engagement', 'area', 'draw'] as const satisfies readonly SubjectSort[];

/** A kind of paper, and two things only checking needs: whom it stands in for, and whether it comes from elsewhere. */
export interface ReadPaper {
  readonly kind: PaperKind;
  /** Kinds whose needs this paper meets as well. */
  readonly serves: readonly string[];
  /** No errand yields it: the owner has it or gets it some other way. */
  readonly brought: boolean;
}

function readFact(id: string, tree: Tree, scope: Scope): FactRule {
  if (tree.of !== 'map') {
    const ask = { what: `The sort of the fact "${id}"`, words: factSorts };
    const sort: FactSort = oneOf(tree, ask, scope.problems) ?? 'text';
    return { id, sort, title: titleOf(id) };
  }
  const fields = new Fields(scope, tree, { name: `fact "${id}"`, at: tree.at });
  if (!fields.has('sort')) fields.missing('sort');
  const fact = { id, sort: fields.word('sort', factSorts) ?? 'text', title: fields.text('title') ?? titleOf(id) };
  fields.close();
  return fact;
}

function readExtension(tree: Tree | undefined, about: string, scope: Scope): Extension | undefined {
  if (tree === undefined) return undefined;
  const fields = new Fields(scope, tree, { name: `"extend" of ${about}`, at: tree.at });
  for (const key of ['by', 'adds']) if (!fields.has(key)) fields.missing(key);
  const extension: Extension = {
    by: fields.ref('by', 'kind') ?? '',
    adds: fields.span('adds') ?? {},
    times: fields.count('times') ?? 1,
    askedBeforeLapse: (fields.word('asked', ['before lapse', 'any time']) ?? 'before lapse') === 'before lapse',
    after: fields.ref('after', 'event'),
  };
  fields.close();
  return extension;
}

function readRevival(tree: Tree | undefined, about: string, scope: Scope): Revival | undefined {
  if (tree === undefined) return undefined;
  const fields = new Fields(scope, tree, { name: `"revive" of ${about}`, at: tree.at });
  if (!fields.has('within')) fields.missing('within');
  const revival: Revival = { within: fields.span('within') ?? {}, fee: fields.money('fee') };
  fields.close();
  return revival;
}

export function readPaper({ id, tree, at }: Rule, scope: Scope): ReadPaper {
  const about = `paper "${id}"`;
  const fields = new Fields(scope, tree, { name: about, at });
  if (id === 'lot' || id === 'figure') scope.problems.add(at, `"${id}" can't name a paper: agreements use that word.`);
  if (!fields.has('from')) fields.missing('from');
  const conditions = fields.texts('conditions');
  const kind: PaperKind = {
    id,
    title: fields.text('title') ?? titleOf(id),
    from: fields.ref('from', 'office') ?? '',
    facts: eachRule(fields.get('facts'), scope, (fact, value) => readFact(fact, value, scope)),
    looksLike: fields.texts('looks_like'),
    clocks: readClocks(fields.get('good'), about, scope),
    extension: readExtension(fields.get('extend'), about, scope),
    revival: readRevival(fields.get('revive'), about, scope),
    madeFrom: fields.refs('made_from', 'kind'),
    each: fields.word('each', subjectSorts),
    private: fields.yes('private', false),
    when: readWhen(fields),
    hint: fields.text('hint'),
    ...(conditions.length === 0 ? {} : { conditions }),
    basis: readBasis(fields.get('basis'), scope),
  };
  const serves = fields.refs('serves', 'kind');
  const brought = fields.yes('brought', false);
  fields.close();
  for (const clock of kind.clocks) {
    if (clock.sort === 'stated' && clock.fact !== undefined && kind.facts[clock.fact]?.sort !== 'day') {
      scope.problems.add(
        at,
        `"good" of ${about} reads its date from "${clock.fact}", which is no day among its facts.`,
      );
    }
  }
  return { kind, serves, brought };
}
