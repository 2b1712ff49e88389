import { expect, it } from 'vitest';
import { numbered, withoutNumber } from '../../core/desk/features/numbered.ts';

it('a list copied with its numbers keeps them as theirs and says none twice', () => {
  expect(numbered(['1. Nail plates.', '3) Bolt the hold-down.', '(4) Fire-stop the chase.'])).toEqual([
    { number: '1', text: 'Nail plates.' },
    { number: '3', text: 'Bolt the hold-down.' },
    { number: '4', text: 'Fire-stop the chase.' },
  ]);
});

it('where some have none, or two have one, they count in the order given', () => {
  expect(numbered(['2. Nail plates.', 'Bolt it.'])).toEqual([
    { number: '1', text: 'Nail plates.' },
    { number: '2', text: 'Bolt it.' },
  ]);
  expect(numbered(['1. Nail plates.', '1. Bolt it.']).map(({ number }) => number)).toEqual(['1', '2']);
});

it('sizes at the beginning are words, not numbers', () => {
  for (const words of ['2 - 2x8 with one jack.', '2.5 inches short.', '16d nails are missing.', '3.'])
    expect(withoutNumber(words)).toBe(words);
});
