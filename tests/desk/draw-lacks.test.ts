import { expect, test } from 'vitest';
import { lacksInWords } from '../../core/desk/features/draw-lacks.ts';

test('what a draw would be refused for is named by its papers', () => {
  const refused = (leg: 'sum' | 'invoice' | 'payment' | 'waiver') => ({ leg, weight: 'refused' }) as const;
  expect(lacksInWords([refused('invoice'), { leg: 'paper', weight: 'questioned' }])).toBe('an invoice missing');
  expect(lacksInWords([refused('waiver'), refused('invoice'), refused('waiver'), refused('payment')])).toBe(
    'an invoice, a payment and 2 lien waivers missing',
  );
  expect(lacksInWords([refused('sum'), refused('invoice')])).toBe('an invoice missing; a sum is not right');
  expect(lacksInWords([{ leg: 'waiver', weight: 'questioned' }])).toBe('');
});
