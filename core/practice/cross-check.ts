import type { FactSort } from '../vocabulary/facts.ts';
import type { Agreement, Errand, KindId, Need, Practice, Term } from '../vocabulary/practice.ts';
import { findLoop } from './loop.ts';
import { didYouMean, type Place, type Problems } from './problems.ts';
import { at, type MapTree } from './yaml-tree.ts';

/** What is checked once every rule is read: that the rules fit each other. */
export interface Crossing {
  readonly practice: Practice;
  /** The same without the errands that are only offered: those can't wait for anybody. */
  readonly here: Practice;
  readonly brought: ReadonlySet<KindId>;
  readonly tree: MapTree;
  readonly problems: Problems;
}

/** The place of `errands.permit-apply.needs.plans` and the like; the nearest thing above where it has none. */
function placeOf(tree: MapTree, path: readonly string[]): Place {
  let here: MapTree = tree;
  let place: Place = tree.at;
  for (const step of path) {
    const entry = here.entries.get(step);
    if (entry === undefined) return place;
    place = entry.at;
    if (entry.value.of !== 'map') return place;
    here = entry.value;
  }
  return place;
}

/** True where the lot can come by this kind: an errand yields it, the owner writes it, or it is brought. */
export function hasSource(kind: KindId, practice: Practice, brought: ReadonlySet<KindId>): boolean {
  if (brought.has(kind)) return true;
  const from = practice.papers[kind]?.from ?? '';
  if (practice.offices[from]?.sort === 'owner') return true;
  return Object.values(practice.errands).some((errand) => errand.yields.includes(kind));
}

function checkNeed(errand: Errand, need: Need, crossing: Crossing): void {
  const { practice, problems, tree } = crossing;
  const place = placeOf(tree, ['errands', errand.id, 'needs', need.id]);
  const about = `need "${need.id}" of errand "${errand.id}"`;
  if (need.kinds.length > 0 && !need.kinds.some((kind) => hasSource(kind, practice, crossing.brought))) {
    const kinds = need.kinds.map((kind) => `"${kind}"`).join(' or ');
    problems.add(
      place,
      `The ${about} asks for ${kinds}, which no errand yields; let an errand yield it, or mark the paper "brought: yes".`,
    );
  }
  for (const id of need.kinds) {
    const kind = practice.papers[id];
    if (kind === undefined) continue;
    if (need.each !== undefined && kind.each !== need.each) {
      problems.add(
        place,
        `The ${about} wants one per ${need.each}, but the paper "${id}" is not kept per ${need.each}.`,
      );
    }
    for (const fact of need.facts) {
      if (Object.hasOwn(kind.facts, fact)) continue;
      const near = didYouMean(fact, Object.keys(kind.facts));
      problems.add(place, `The ${about} wants the fact "${fact}", which the paper "${id}" doesn't carry${near}`);
    }
  }
}

const alike: Readonly<Partial<Record<FactSort, string>>> = {
  count: 'number',
  number: 'number',
  percent: 'number',
  choice: 'text',
  revision: 'text',
};

function sortOf(term: Term, practice: Practice): FactSort | undefined {
  if (term.of === 'paper') return practice.papers[term.kind]?.facts[term.fact]?.sort;
  if (term.of === 'lot') return practice.questions[term.question]?.sort;
  return undefined;
}

/** The id an agreement has in the file; one said of many papers is judged in pairs with longer ids. */
function writtenAs(id: string, tree: MapTree): string {
  const written = [...(sectionOf(tree, 'agreements')?.entries.keys() ?? [])];
  const longest = written.filter((one) => id.startsWith(`${one}-`)).sort((a, b) => b.length - a.length)[0];
  return written.includes(id) ? id : (longest ?? id);
}

function checkAgreement(agreement: Agreement, { practice, problems, tree }: Crossing): void {
  const place = placeOf(tree, ['agreements', writtenAs(agreement.id, tree)]);
  const sorts = agreement.terms.map((term) => sortOf(term, practice)).filter((sort) => sort !== undefined);
  const classes = [...new Set(sorts.map((sort) => alike[sort] ?? sort))];
  if (classes.length > 1) {
    problems.add(place, `The agreement "${agreement.id}" compares ${classes.join(' with ')}: these can't be compared.`);
  }
  const ofDays = agreement.verb === 'covers_days' || agreement.verb === 'not_before';
  if (ofDays && sorts.some((sort) => sort !== 'day')) {
    problems.add(place, `"${agreement.verb}" of agreement "${agreement.id}" compares days only.`);
  }
}

function checkLoop({ here: practice, brought, problems, tree }: Crossing): void {
  const loop = findLoop(practice, (kind) => brought.has(kind) || !yieldedBySome(kind, practice));
  const first = loop[0];
  if (first === undefined) return;
  const chain = loop.map((step) => `${step.errand} waits for ${step.waitsFor} (${step.because})`).join('; ');
  const place = placeOf(tree, ['errands', first.errand]);
  problems.add(place, `These errands wait for each other, so none of them could be the first: ${chain}.`);
}

function yieldedBySome(kind: KindId, practice: Practice): boolean {
  return Object.values(practice.errands).some((errand) => errand.yields.includes(kind));
}

export function crossCheck(crossing: Crossing): void {
  for (const errand of Object.values(crossing.practice.errands)) {
    for (const need of errand.needs) checkNeed(errand, need, crossing);
  }
  for (const agreement of Object.values(crossing.practice.agreements)) checkAgreement(agreement, crossing);
  checkLoop(crossing);
}

/** The section as a map, or an empty one. */
export function sectionOf(tree: MapTree, key: string): MapTree | undefined {
  const section = at(tree, key);
  return section?.of === 'map' ? section : undefined;
}
