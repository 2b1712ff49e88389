import { type TrackedTable, trackedTables } from '../changes.ts';
import type { MergeSide, SideRow } from './merge-side.ts';

export type Side = 'mine' | 'theirs';

/** What taking over amounts to for one row. */
export interface MergeStep {
  readonly table: TrackedTable;
  readonly key: string;
  readonly mine: SideRow | undefined;
  readonly theirs: SideRow | undefined;
}

export interface Comparison {
  /** Rows to be made as theirs: new, changed or gone there alone. */
  readonly take: readonly MergeStep[];
  /** Changed on both sides. */
  readonly conflicts: readonly MergeStep[];
}

/** Editions whose file was removed for good on either side: what was read off them is never brought back. */
export function purgedEditions(...sides: readonly MergeSide[]): ReadonlySet<string> {
  const sql = `SELECT edition FROM edition_original JOIN file ON sha = file WHERE purged = 1
    UNION SELECT edition FROM edition_part JOIN rendition ON rendition.sha = rendition WHERE rendition.purged = 1`;
  return new Set(sides.flatMap(({ db }) => db.prepare<[], string>(sql).pluck().all()));
}

type Verdict = 'take' | 'keep' | 'conflict';

function verdictOf(step: MergeStep, mine: MergeSide, theirs: MergeSide): Verdict {
  const { table, key } = step;
  if (step.mine === undefined && step.theirs !== undefined) {
    const gone = mine.removed(table).get(key);
    if (gone === undefined) return 'take';
    return gone.has(step.theirs.text) ? 'keep' : 'conflict';
  }
  if (step.mine !== undefined && step.theirs === undefined) {
    const gone = theirs.removed(table).get(key);
    if (gone === undefined) return 'keep';
    return gone.has(step.mine.text) ? 'take' : 'conflict';
  }
  if (step.mine === undefined || step.theirs === undefined || step.mine.text === step.theirs.text) return 'keep';
  const theyKnewMine = theirs.everSaid(table, step.theirs, step.mine.text);
  const iKnewTheirs = mine.everSaid(table, step.mine, step.theirs.text);
  if (theyKnewMine === iKnewTheirs) return 'conflict';
  return theyKnewMine ? 'take' : 'keep';
}

function isOfPurged({ table, mine, theirs }: MergeStep, purged: ReadonlySet<string>): boolean {
  const { plain } = mine ?? theirs ?? {};
  const edition = table === 'edition' ? plain?.id : table === 'fact' ? plain?.edition : undefined;
  // An edition that is new here comes with what is left of it.
  if (table === 'edition' && mine === undefined) return false;
  return typeof edition === 'string' && purged.has(edition);
}

/**
 * Lays two copies of a lot side by side, row by row. A row that one side once had as the other still has it was changed
 * on that side alone; only where neither knows the other's state must a person choose.
 */
export function compareSides(mine: MergeSide, theirs: MergeSide): Comparison {
  const purged = purgedEditions(mine, theirs);
  const steps = trackedTables.flatMap((table): readonly MergeStep[] => {
    const own = mine.rows(table);
    const other = theirs.rows(table);
    const keys = [...new Set([...own.keys(), ...other.keys()])];
    return keys.map((key) => ({ table, key, mine: own.get(key), theirs: other.get(key) }));
  });
  const judged = steps
    .filter((step) => step.mine?.text !== step.theirs?.text && !isOfPurged(step, purged))
    .map((step) => ({ step, verdict: verdictOf(step, mine, theirs) }));
  const of = (wanted: Verdict) => judged.flatMap(({ step, verdict }) => (verdict === wanted ? [step] : []));
  return { take: of('take'), conflicts: of('conflict') };
}
