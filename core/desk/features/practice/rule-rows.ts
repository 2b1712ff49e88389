import type { PracticeLayer } from '../../../store/index.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { Errand, Practice } from '../../../vocabulary/practice.ts';
import type { AmendableRow, RuleSort } from '../../contract/practice-answers.ts';
import { errandRows, heldHere, officeRows, paperRows } from '../amend-rows.ts';

/** An errand of the practice, or one that is written down and not wanted here. */
export function errandIn({ errands, offered = {} }: Practice, id: string): Errand | undefined {
  if (Object.hasOwn(errands, id)) return errands[id];
  return Object.hasOwn(offered, id) ? offered[id] : undefined;
}

/** The rule as a person reads it, where one of the rows bears it. */
export function rowFor(practice: Practice, rule: string): AmendableRow | undefined {
  const [room, id = ''] = rule.split('.');
  const errand = room === 'errands' ? errandIn(practice, id) : undefined;
  const paper = room === 'papers' && Object.hasOwn(practice.papers, id) ? practice.papers[id] : undefined;
  const office = room === 'offices' && Object.hasOwn(practice.offices, id) ? practice.offices[id] : undefined;
  const rows = [
    ...(errand === undefined
      ? []
      : [...errandRows(errand, practice), heldHere(errand, Object.hasOwn(practice.errands, id))]),
    ...(paper === undefined ? [] : paperRows(paper, practice)),
    ...(office === undefined ? [] : officeRows(office)),
  ];
  return rows.find((each) => each.rule === rule);
}

/** What a rule is about, where no row bears it: "Septic permit". */
export function thingOf(practice: Practice, rule: string): string | undefined {
  const [room, id = ''] = rule.split('.');
  const rules = room === 'papers' ? practice.papers : room === 'offices' ? practice.offices : undefined;
  return (
    errandTitleIn(practice, room, id) ??
    (rules !== undefined && Object.hasOwn(rules, id) ? rules[id]?.title : undefined)
  );
}

function errandTitleIn(practice: Practice, room: string | undefined, id: string): string | undefined {
  return room === 'errands' ? errandIn(practice, id)?.title : undefined;
}

/** What a rule of each sort takes, in words; undefined where any words will do. */
function wantedOf(sort: RuleSort, choices: readonly string[] | undefined): string | undefined {
  switch (sort) {
    case 'money':
      return 'an amount, like $385, or free';
    case 'count':
      return 'a whole number, like 2';
    case 'days':
      return 'a time in words, like 30 days, 18 months or 10 to 20 working days';
    case 'size':
      return 'a size, like 40 MB';
    case 'yes or no':
      return 'yes or no';
    case 'choice':
      return `one of these: ${(choices ?? []).join(', ')}`;
    case 'list':
      return choices === undefined ? undefined : `one or more of these: ${choices.join(', ')}`;
    case 'words':
      return undefined;
  }
}

export type RuleValue = string | number | boolean | readonly string[];

/** An amount typed without its currency is in dollars: the rule already says that it is money. */
export function valueFor(row: AmendableRow | undefined, value: RuleValue): RuleValue {
  const bare = row?.sort === 'money' && /^\s*[\d,]+(\.\d{2})?\s*$/.test(String(value));
  return bare ? `$${String(value).trim()}` : value;
}

export function valueInWords(value: RuleValue): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'object' ? value.join(', ') : String(value);
}

/** What was said of one rule, to be told where the practice doesn't take it. */
export interface Said {
  readonly rule: string;
  /** The rule in words, where a row bears it. */
  readonly row: AmendableRow | undefined;
  readonly value: RuleValue;
}

function notTaken({ rule, row, value }: Said, sentence: string): LotfileError {
  const wanted = row === undefined ? undefined : wantedOf(row.sort, row.choices);
  if (row === undefined || wanted === undefined) {
    return new LotfileError('bad practice', sentence, { about: rule, next: 'Say it otherwise; nothing was changed.' });
  }
  const what = `${row.group}, ${row.label}: "${valueInWords(value)}" is not what is wanted here.`;
  return new LotfileError('bad practice', what, { about: rule, next: `Write ${wanted}. Nothing was changed.` });
}

/**
 * The practice with one more layer. What speaks against that layer is told in words about the rule, not by its line.
 * @throws LotfileError 'bad practice'
 */
export async function withLayer(
  layers: readonly PracticeLayer[],
  layer: PracticeLayer,
  said: Said,
): Promise<{ readonly practice: Practice; readonly layers: readonly PracticeLayer[] }> {
  const { checkPractice } = await import('../../../practice/index.ts');
  const { figures } = await import('../../../figures/index.ts');
  const all = [...layers, layer];
  const { practice, problems } = checkPractice(all, { figures: Object.keys(figures) });
  if (practice !== undefined) return { practice, layers: all };
  throw notTaken(said, problems.find((one) => one.layer === layer.name)?.sentence ?? problems[0]?.sentence ?? '');
}

/** Two people may say the same on one day; each word keeps a name of its own. */
export function named(layer: PracticeLayer, layers: readonly PracticeLayer[]): PracticeLayer {
  const taken = new Set(layers.map(({ name }) => name));
  let name = layer.name;
  for (let n = 2; taken.has(name); n += 1) name = `${layer.name} (${n})`;
  return { ...layer, name };
}
