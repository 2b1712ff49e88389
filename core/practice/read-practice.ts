import { LotfileError } from '../vocabulary/errors.ts';
import type { KindId, Practice } from '../vocabulary/practice.ts';
import { crossCheck, sectionOf } from './cross-check.ts';
import { eachRule, Fields } from './fields.ts';
import { layOver } from './lay-over.ts';
import { withoutOffered } from './offered.ts';
import { type Problem, Problems, problemLine } from './problems.ts';
import { inPairs, readAgreement } from './read-agreement.ts';
import { readBasis } from './read-basis.ts';
import { checkNamedConditions } from './read-condition.ts';
import { readErrand } from './read-errand.ts';
import { readForm } from './read-form.ts';
import { type ReadPaper, readPaper } from './read-paper.ts';
import { type Rule, readDuty, readEvent, readHold, readOffice, readQuestion } from './read-small-rules.ts';
import { makeScope, type Scope } from './scope.ts';
import { layerBasis, shapeLayer } from './shape-layer.ts';
import { dayOf, itemsOf } from './values.ts';
import { type Layer, type MapTree, type Tree, treeOf, at as valueAt } from './yaml-tree.ts';

export type { Problem } from './problems.ts';
export type { Layer } from './yaml-tree.ts';

export interface Checked {
  /** Only where there is no problem at all. */
  readonly practice?: Practice;
  /** In the order of the layers, then by line. */
  readonly problems: readonly Problem[];
}

export interface CheckOptions {
  /** Names of the figures that exist; without it any figure name is taken. */
  readonly figures?: readonly string[] | undefined;
}

function laidTogether(trees: readonly MapTree[], first: string, problems: Problems): MapTree {
  let whole: MapTree = { of: 'map', at: { layer: first, line: 1, column: 1 }, entries: new Map() };
  for (const tree of trees) whole = layOver(whole, shapeLayer(tree), problems);
  return whole;
}

/**
 * The names written at a path of the layers laid over each other: `['errands', 'permit-apply', 'needs', 'plans']` ->
 * copies, seal, when ... Nothing where the path leads nowhere.
 */
export function writtenUnder(layers: readonly Layer[], path: readonly string[]): readonly string[] {
  const problems = new Problems();
  const trees = layers.map((layer) => treeOf(layer, problems));
  let here: Tree | undefined = laidTogether(trees, layers[0]?.name ?? 'practice', problems);
  for (const step of path) here = here?.of === 'map' ? valueAt(here, step) : undefined;
  return here?.of === 'map' ? [...here.entries.keys()] : [];
}

function section<T>(fields: Fields, key: string, read: (rule: Rule, scope: Scope) => T): Readonly<Record<string, T>> {
  const tree: Tree | undefined = fields.get(key);
  return eachRule(tree, fields.scope, (id, value, at) => read({ id, tree: value, at }, fields.scope));
}

/** "One paper serving several needs": wherever a kind is asked for, those that serve it will do, after it. */
function withServing(practice: Practice, papers: Readonly<Record<KindId, ReadPaper>>): Practice {
  const serving = (kind: KindId): readonly KindId[] =>
    Object.values(papers).flatMap((paper) => (paper.serves.includes(kind) ? [paper.kind.id] : []));
  const errands = Object.values(practice.errands).map((errand) => ({
    ...errand,
    needs: errand.needs.map((need) => ({
      ...need,
      kinds: [...new Set([...need.kinds, ...need.kinds.flatMap(serving)])],
    })),
  }));
  return { ...practice, errands: Object.fromEntries(errands.map((errand) => [errand.id, errand])) };
}

function readWhole(tree: MapTree, layers: readonly string[], scope: Scope): Practice {
  const fields = new Fields(scope, tree, { name: 'a practice file', at: tree.at });
  fields.get('amends_only');
  const questions = section(fields, 'questions', readQuestion);
  for (const question of Object.values(questions)) scope.questions.set(question.id, question);
  fields.get('conditions');
  checkNamedConditions(sectionOf(tree, 'conditions'), scope);
  const papers = section(fields, 'papers', readPaper);
  const holidays = fields.get('holidays');
  const days = holidays === undefined ? [] : itemsOf(holidays, '"holidays"', scope.problems);
  const errands = Object.values(section(fields, 'errands', readErrand));
  const agreements = Object.values(section(fields, 'agreements', readAgreement)).flatMap(inPairs);
  const practice: Practice = {
    title: fields.text('title') ?? 'Local practice',
    layers,
    offices: section(fields, 'offices', readOffice),
    questions,
    events: section(fields, 'events', readEvent),
    papers: Object.fromEntries(Object.values(papers).map(({ kind }) => [kind.id, kind])),
    errands: Object.fromEntries(errands.map(({ errand }) => [errand.id, errand])),
    agreements: Object.fromEntries(agreements.map((agreement) => [agreement.id, agreement])),
    duties: section(fields, 'duties', readDuty),
    holds: section(fields, 'holds', readHold),
    ...(fields.has('forms') ? { forms: section(fields, 'forms', readForm) } : {}),
    holidays: days.flatMap((item) => dayOf(item, 'A holiday', scope.problems) ?? []),
  };
  fields.close();
  const served = withServing(practice, papers);
  const brought = new Set(Object.values(papers).flatMap((paper) => (paper.brought ? [paper.kind.id] : [])));
  const offered = new Set(errands.flatMap(({ errand, exists }) => (exists ? [] : [errand.id])));
  const here = withoutOffered(served, offered, brought);
  if (scope.problems.count === 0) crossCheck({ practice: served, here, brought, tree, problems: scope.problems });
  return here;
}

/**
 * Reads layers of practice files (common practice first, then local amendments laid over it by id)
 * and tells every mistake with file, line and sentence. How well the rules fit each other (papers nobody
 * yields, loops) is told once each rule by itself is right.
 */
export function checkPractice(layers: readonly Layer[], options: CheckOptions = {}): Checked {
  const problems = new Problems();
  const names = layers.map((layer) => layer.name);
  const twice = layers.find(({ name, text }) => layers.some((other) => other.name === name && other.text !== text));
  if (twice !== undefined) {
    problems.add({ layer: twice.name, line: 1, column: 1 }, `Two different practice files are called "${twice.name}".`);
  }
  const trees = layers.map((layer) => treeOf(layer, problems));
  const tree = laidTogether(trees, names[0] ?? 'practice', problems);
  const scope = makeScope(tree, problems, options.figures);
  for (const each of trees) readBasis(layerBasis(each), scope);
  const practice = readWhole(tree, names, scope);
  return problems.count === 0 ? { practice, problems: [] } : { problems: problems.inOrder(names) };
}

const [mostTold, longestLine] = [60, 300];

/** One problem a line, as many as a person mends in one go; a file of another sort can hold thousands, or one endless. */
function problemsTold(problems: readonly Problem[]): string {
  const lines = problems.slice(0, mostTold).map(problemLine);
  const more = problems.length - lines.length;
  return [
    ...lines.map((line) => (line.length > longestLine ? `${line.slice(0, longestLine)} …` : line)),
    ...(more === 0 ? [] : [`And ${more} more mistakes.`]),
  ].join('\n');
}

/**
 * The effective practice of some layers.
 * @throws LotfileError 'bad practice' whose message lists problems as "file:line: sentence"
 */
export function readPractice(layers: readonly Layer[], options: CheckOptions = {}): Practice {
  const { practice, problems } = checkPractice(layers, options);
  if (practice !== undefined) return practice;
  throw new LotfileError('bad practice', problemsTold(problems), {
    about: [...new Set(problems.map((problem) => problem.layer))].join(', '),
    next: 'Mend the lines named and read the practice again; what was in use before stays in use.',
  });
}
