import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Layer, readPractice } from '../../core/practice/index.ts';
import type { Condition, Errand, Need, PaperKind, Practice } from '../../core/vocabulary/practice.ts';

const templates = join(import.meta.dirname, '..', '..', 'templates', 'practice', 'common');

/** The program's own common practice, in file order. */
export const commonLayers: readonly Layer[] = readdirSync(templates)
  .filter((name) => name.endsWith('.yaml'))
  .sort()
  .map((name) => ({ name, text: readFileSync(join(templates, name), 'utf8') }));

/** Common practice with one more layer laid over it. */
export function amended(text: string, name = 'county.yaml'): Practice {
  return readPractice([...commonLayers, { name, text }]);
}

/** What stands under an id, or a failing test. */
export function under<T>(rules: Readonly<Record<string, T>>, id: string): T {
  const rule = rules[id];
  if (rule === undefined) throw new Error(`nothing stands under "${id}"`);
  return rule;
}

export function errandOf(practice: Practice, id: string): Errand {
  return under(practice.errands, id);
}

export function paperOf(practice: Practice, id: string): PaperKind {
  return under(practice.papers, id);
}

export function needOf(practice: Practice, errand: string, id: string): Need {
  const need = errandOf(practice, errand).needs.find((one) => one.id === id);
  if (need === undefined) throw new Error(`${errand} has no need "${id}"`);
  return need;
}

/** A condition in one line, for comparing. */
export function told(condition: Condition): string {
  switch (condition.op) {
    case 'is':
      return `${condition.question} is ${condition.values.join('/')}`;
    case 'over':
    case 'under':
      return `${condition.question} ${condition.op} ${condition.value}`;
    case 'happened':
      return `happened ${condition.event}`;
    case 'held':
      return `held ${condition.kind}`;
    case 'not':
      return `not (${told(condition.of)})`;
    case 'and':
    case 'or':
      return condition.of.map((part) => `(${told(part)})`).join(` ${condition.op} `);
  }
}

/** Everything a need asks beyond one plain paper left with the office, in one line. */
export function inOneLine(need: Need): string {
  const kinds = need.kinds.join('|');
  const parts = [
    kinds === need.id ? need.id : `${need.id}: ${kinds}`,
    need.copies === 1 ? '' : `x${need.copies}`,
    need.form === 'either' ? '' : `${need.form} only`,
    need.use === 'leave' ? '' : need.use,
    need.sheets.length === 0 ? '' : `on ${need.sheets.join('/')}`,
    need.seal.length === 0 ? '' : `sealed ${need.seal.join('/')}`,
    need.stampedBy === undefined ? '' : `stamped by ${need.stampedBy}`,
    need.approvedBy === undefined ? '' : `approved by ${need.approvedBy}`,
    need.each === undefined ? '' : `each ${need.each}`,
    need.when === undefined ? '' : `when ${told(need.when)}`,
    need.marks.length === 0 ? '' : `[${need.marks.join(', ')}]`,
    need.optional ? 'optional' : '',
  ];
  return parts.filter((part) => part !== '').join(', ');
}
