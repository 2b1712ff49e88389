import type { PlanLabel } from '../plan-model.ts';

/** The label each page must show (ISO 32000-1, 12.4.2). */
export function expectedLabels(labels: readonly PlanLabel[], pages: number): readonly string[] {
  const sorted = [...labels].sort((a, b) => a.sheet - b.sheet);
  return Array.from({ length: pages }, (_, page) => {
    const label = sorted.findLast(({ sheet }) => sheet <= page);
    return label === undefined ? String(page + 1) : label.prefix + numberIn(label, page);
  });
}

function numberIn(label: PlanLabel, page: number): string {
  const number = label.start + page - label.sheet;
  if (label.style === 'none') return '';
  return label.style === 'roman' ? roman(number) : String(number);
}

const numerals = [
  [1000, 'm'],
  [900, 'cm'],
  [500, 'd'],
  [400, 'cd'],
  [100, 'c'],
  [90, 'xc'],
  [50, 'l'],
  [40, 'xl'],
  [10, 'x'],
  [9, 'ix'],
  [5, 'v'],
  [4, 'iv'],
  [1, 'i'],
] as const;

function roman(number: number): string {
  let left = number;
  let text = '';
  for (const [value, letters] of numerals) {
    while (left >= value) {
      text += letters;
      left -= value;
    }
  }
  return text;
}
