import type { FactSort } from '../vocabulary/facts.ts';
import { didYouMean, type Place, type Problems } from './problems.ts';
import { at, type MapTree, type Tree } from './yaml-tree.ts';

export const references = ['office', 'kind', 'errand', 'event', 'question', 'condition'] as const;
export type Reference = (typeof references)[number];

/** What a question may be answered with, known before any condition is read. */
export interface QuestionShape {
  readonly sort: FactSort;
  readonly choices: readonly string[];
}

/** Everything a reader may refer to, and where its complaints go. */
export interface Scope {
  readonly problems: Problems;
  readonly known: Readonly<Record<Reference, ReadonlySet<string>>>;
  readonly questions: Map<string, QuestionShape>;
  /** Fact ids by kind. */
  readonly facts: Map<string, ReadonlySet<string>>;
  readonly conditions: MapTree | undefined;
  /** Names of the figures that exist, where the caller told them. */
  readonly figures: ReadonlySet<string> | undefined;
}

const sectionOf: Readonly<Record<Reference, string>> = {
  office: 'offices',
  kind: 'papers',
  errand: 'errands',
  event: 'events',
  question: 'questions',
  condition: 'conditions',
};

const wordFor: Readonly<Record<Reference, string>> = {
  office: 'office',
  kind: 'paper',
  errand: 'errand',
  event: 'event',
  question: 'question',
  condition: 'condition',
};

function idsIn(tree: Tree | undefined): ReadonlySet<string> {
  return new Set(tree?.of === 'map' ? tree.entries.keys() : []);
}

export function makeScope(whole: MapTree, problems: Problems, figures: readonly string[] | undefined): Scope {
  const ids = (reference: Reference): ReadonlySet<string> => idsIn(at(whole, sectionOf[reference]));
  const conditions = at(whole, 'conditions');
  const facts = new Map<string, ReadonlySet<string>>();
  const papers = at(whole, 'papers');
  if (papers?.of === 'map') {
    for (const { key, value } of papers.entries.values()) {
      facts.set(key, idsIn(value.of === 'map' ? at(value, 'facts') : undefined));
    }
  }
  return {
    problems,
    known: {
      office: ids('office'),
      kind: ids('kind'),
      errand: ids('errand'),
      event: ids('event'),
      question: ids('question'),
      condition: ids('condition'),
    },
    questions: new Map(),
    facts,
    conditions: conditions?.of === 'map' ? conditions : undefined,
    figures: figures === undefined ? undefined : new Set(figures),
  };
}

/** True where the id exists; else says so, with the nearest one that does. */
export function exists(scope: Scope, reference: Reference, id: string, place: Place): boolean {
  if (scope.known[reference].has(id)) return true;
  scope.problems.add(place, `There is no ${wordFor[reference]} "${id}"${didYouMean(id, scope.known[reference])}`);
  return false;
}
