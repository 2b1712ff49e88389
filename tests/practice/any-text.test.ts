import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPractice, officeWord } from '../../core/practice/index.ts';
import { smallCounty } from './small-county.ts';

/** However a file is broken: either a whole practice comes out, or problems with a line that exists. */
function holds(text: string): void {
  const { practice, problems } = checkPractice([{ name: 'x.yaml', text }]);
  expect(practice === undefined).toBe(problems.length > 0);
  const lines = text.split('\n').length;
  for (const { line, column, sentence } of problems) {
    expect(line).toBeGreaterThanOrEqual(1);
    expect(line).toBeLessThanOrEqual(lines);
    expect(column).toBeGreaterThanOrEqual(1);
    expect(sentence.trim()).not.toBe('');
  }
}

describe('whatever stands in a practice file', () => {
  it('any text at all ends in a practice or in problems, never in a crash', () => {
    fc.assert(fc.property(fc.string({ maxLength: 200, unit: 'binary' }), holds), { numRuns: 150 });
  });

  it('a good file with any piece cut out, doubled or replaced does too', () => {
    const piece = fc.tuple(fc.nat(smallCounty.length), fc.nat(40), fc.string({ maxLength: 12 }));
    fc.assert(
      fc.property(piece, ([start, length, put]) =>
        holds(smallCounty.slice(0, start) + put + smallCounty.slice(start + length)),
      ),
      { numRuns: 150 },
    );
  });

  it('words that mean something to JavaScript are words like others', () => {
    for (const word of ['__proto__', 'constructor', 'toString', 'hasOwnProperty']) {
      holds(smallCounty.replace('plans: {copies: 2}', `${word}: {copies: 2}`));
      holds(smallCounty.replace('{sewage: septic}', `{${word}: septic}`));
      holds(smallCounty.replace('copies: 2', `${word}: 2`));
    }
  });

  it('an office’s word with any value and any note is one readable layer', () => {
    fc.assert(
      fc.property(fc.string({ minLength: 1, maxLength: 30 }), fc.string({ maxLength: 30 }), (who, note) => {
        fc.pre(who.trim() !== '');
        const target = 'errands.apply.needs.plans.copies';
        const word = officeWord({ target, value: 3, who, day: '2026-04-02', note });
        const { practice, problems } = checkPractice([{ name: 'small.yaml', text: smallCounty }, word]);
        expect(problems).toEqual([]);
        const need = practice?.errands.apply?.needs.find((one) => one.id === 'plans');
        expect(need).toMatchObject({ copies: 3, basis: { on: 'the office told us', who: who.trim() } });
      }),
      { numRuns: 100 },
    );
  });
});
