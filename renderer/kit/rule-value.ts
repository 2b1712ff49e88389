import type { AmendableRow, RuleSort } from '../../core/desk/contract/screen-answers.ts';

export type RuleValue = string | number | boolean | string[];

/** The present value of a rule as one writes it. */
export function asWritten(value: AmendableRow['value']): string {
  if (value === undefined) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return typeof value === 'object' ? value.join('\n') : String(value);
}

/** What is to be typed, as a hint below the field. */
export function hintFor(sort: RuleSort): string | undefined {
  switch (sort) {
    case 'count':
      return 'A whole number.';
    case 'money':
      return 'An amount, like $385, or free.';
    case 'list':
      return 'One thing per line.';
    case 'days':
      return 'A time in words: 30 days, 18 months, 10 to 20 working days.';
    case 'size':
      return 'A size: 40 MB.';
    case 'words':
    case 'yes or no':
    case 'choice':
      return undefined;
  }
}

/** What was typed, as `clerk-said` takes it; undefined where it is nothing of the sort. */
export function ruleValue({ sort, value }: AmendableRow, text: string): RuleValue | undefined {
  const plain = text.trim();
  if (sort === 'list') {
    const lines = plain.split('\n').map((line) => line.trim());
    return lines.filter((line) => line !== '');
  }
  if (plain === '') return undefined;
  if (sort === 'yes or no') return plain === 'yes';
  const number = Number(plain);
  if (sort === 'count') return Number.isInteger(number) && number >= 0 ? number : undefined;
  return typeof value === 'number' && Number.isFinite(number) ? number : plain;
}
