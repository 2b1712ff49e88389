import { stringify } from 'yaml';
import type { Day } from '../vocabulary/days.ts';
import { LotfileError } from '../vocabulary/errors.ts';
import type { Practice } from '../vocabulary/practice.ts';
import { didYouMean } from './problems.ts';
import type { Layer } from './yaml-tree.ts';

/** "The clerk said otherwise": one changed value, on whose word and when. */
export interface OfficeWord {
  /** Where the rule stands, as in the files: `errands.permit-apply.needs.plans.copies`. */
  readonly target: string;
  /** The new value; the word "drop" takes the rule or field away. */
  readonly value: string | number | boolean | readonly (string | number)[];
  readonly who: string;
  readonly day: Day;
  readonly note?: string | undefined;
}

const sections = ['offices', 'questions', 'events', 'papers', 'errands', 'agreements', 'duties', 'holds'] as const;
type Section = (typeof sections)[number];

function wrong(
  sentence: string,
  target: string,
  next = 'Name the rule as it stands in the practice, for example errands.permit-apply.needs.plans.copies.',
): LotfileError {
  return new LotfileError('bad practice', sentence, { about: target, next });
}

function isSection(word: string): word is Section {
  return sections.some((section) => section === word);
}

function steps(target: string): readonly [Section, ...string[]] {
  const [first = '', ...rest] = target.split('.').map((step) => step.trim());
  if (!isSection(first)) throw wrong(`There is no part "${first}" of a practice${didYouMean(first, sections)}`, target);
  if (rest.length === 0 || rest.includes('')) throw wrong(`"${target}" doesn't name a rule.`, target);
  return [first, ...rest];
}

/** Ids that stand below a rule: its needs, what comes before it, its facts. */
function idsBelow(
  practice: Practice,
  section: Section,
  id: string,
  part: string | undefined,
): readonly string[] | undefined {
  const errand = section === 'errands' ? (practice.errands[id] ?? practice.offered?.[id]) : undefined;
  if (part === 'needs') return errand?.needs.map((need) => need.id);
  if (part === 'before') return errand?.before.map((rule) => rule.id);
  if (part === 'facts' && section === 'papers') return Object.keys(practice.papers[id]?.facts ?? {});
  return undefined;
}

function checkTarget(target: string, practice: Practice): void {
  const [section, id = '', part, inner] = steps(target);
  const offered = section === 'errands' ? Object.keys(practice.offered ?? {}) : [];
  const known = [...Object.keys(practice[section]), ...offered];
  const pairs = section === 'agreements' && known.some((one) => one.startsWith(`${id}-`));
  if (!known.includes(id) && !pairs)
    throw wrong(`There is no "${id}" under ${section}${didYouMean(id, known)}`, target);
  const below = idsBelow(practice, section, id, part);
  if (below !== undefined && inner !== undefined && !below.includes(inner)) {
    const where = `${section}.${id}.${part}`;
    const more = part === 'needs' ? `If they want another paper too, note that: another-paper ${id}.` : undefined;
    throw wrong(`There is no "${inner}" under ${where}${didYouMean(inner, below)}`, target, more);
  }
}

/** A value as a practice file writes it: a number typed as words is a number, true is yes. */
function plainValue(value: OfficeWord['value']): string | number | readonly (string | number)[] {
  if (value === true || value === 'true') return 'yes';
  if (value === false || value === 'false') return 'no';
  return typeof value === 'string' && /^\d+(\.\d+)?$/.test(value.trim()) ? Number(value) : value;
}

/**
 * Writes an office's word as one more layer: `readPractice([...layers, officeWord(change)])` is the amended
 * practice, with the word as basis of the touched rule. The layer may only amend, so a target that isn't there
 * is refused when it is read; with `practice` (the one in use) it is refused at once.
 * @throws LotfileError 'bad practice' naming what doesn't exist and the nearest that does
 */
export function officeWord(change: OfficeWord, practice?: Practice): Layer {
  const path = steps(change.target);
  if (practice !== undefined) checkTarget(change.target, practice);
  if (change.who.trim() === '') throw wrong('Say who told you: a word without a name is hearsay.', change.target);
  const value = plainValue(change.value);
  const nested = path.reduceRight<unknown>((inner, step) => ({ [step]: inner }), value);
  const basis = {
    'told by': change.who.trim(),
    on: change.day,
    ...(change.note === undefined || change.note.trim() === '' ? {} : { note: change.note.trim() }),
  };
  const top = { amends_only: 'yes', basis };
  return {
    name: `word of ${change.day}, ${change.target} is ${String(value)}`,
    text: stringify({ ...top, ...(typeof nested === 'object' ? nested : {}) }, { lineWidth: 0 }),
  };
}
