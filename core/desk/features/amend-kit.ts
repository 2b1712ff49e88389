import { basisInWords } from '../../vocabulary/in-words.ts';
import { moneyInWords } from '../../vocabulary/money.ts';
import type { Basis } from '../../vocabulary/practice.ts';
import type { AmendableRow, RuleSort } from '../contract/practice-answers.ts';

/** The rules "the clerk said otherwise" may change, each with its path in the practice and its value as written there. */

export interface Group {
  /** Path of the rule the fields stand under: `errands.permit-apply.needs.plans`. */
  readonly path: string;
  readonly group: string;
  readonly basis: Basis;
}

export interface Field {
  readonly key: string;
  readonly label: string;
  readonly sort: RuleSort;
  readonly value: AmendableRow['value'];
  readonly choices?: readonly string[];
  /** The word this value stands on, where it is another than its group's. */
  readonly basis?: Basis | undefined;
  /** The sentence; by default made of label and value. */
  readonly say?: string;
}

/** Whole sentences and questions stand one after another, with no comma behind their own mark. */
function listed(items: readonly string[]): string {
  return items.join(items.some((item) => /[.?!]$/.test(item)) ? ' ' : ', ');
}

function closed(sentence: string): string {
  return /[.?!]$/.test(sentence) ? sentence : `${sentence}.`;
}

function plainly({ label, value, sort }: Field): string {
  if (value === undefined || (Array.isArray(value) && value.length === 0)) return `${label}: nothing laid down.`;
  if (sort === 'yes or no') return `${label}: ${value === true ? 'yes' : 'no'}.`;
  return closed(`${label}: ${Array.isArray(value) ? listed(value) : String(value)}`);
}

/** Fields with the word each stands on, by its name in a practice file. */
export function onTheirWord(
  fields: readonly Field[],
  said: Readonly<Record<string, Basis>> | undefined,
): readonly Field[] {
  return said === undefined
    ? fields
    : fields.map((field) => ({ ...field, basis: said[field.key.split('.')[0] ?? field.key] }));
}

export function rowsOf({ path, group, basis }: Group, fields: readonly Field[]): readonly AmendableRow[] {
  return fields.map((field) => ({
    rule: `${path}.${field.key}`,
    group,
    label: field.label,
    say: field.say ?? plainly(field),
    sort: field.sort,
    value: field.value,
    choices: field.choices,
    basis: basisInWords(field.basis ?? basis),
  }));
}

/** "240 usd", "free": the way a practice file writes an amount. */
export function moneyWritten(cents: number | undefined): string | undefined {
  if (cents === undefined) return undefined;
  return cents === 0 ? 'free' : `${moneyInWords(cents).slice(1).replaceAll(',', '')} usd`;
}

/** "25 MB": the way a practice file writes a size; a megabyte has 1,000,000 bytes there. */
export function sizeWritten(bytes: number | undefined): string | undefined {
  if (bytes === undefined) return undefined;
  return bytes % 1_000_000 === 0 ? `${bytes / 1_000_000} MB` : `${bytes / 1000} KB`;
}
