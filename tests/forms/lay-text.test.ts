import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { layText } from '../../core/forms/lay-text.ts';
import { loadFonts } from '../../core/packet/sheets/fonts.ts';

const fonts = await loadFonts();

const anyCase = fc.record({
  text: fc.array(fc.constantFrom('Hạnh', 'Lindqvist', '418', 'Heron Lane', 'Παρά', '041-22-0070'), { maxLength: 12 }),
  width: fc.integer({ min: 8, max: 500 }),
  height: fc.integer({ min: 6, max: 90 }),
  border: fc.integer({ min: 0, max: 3 }),
  size: fc.constantFrom(0, 8, 10.5, 14),
  multiline: fc.boolean(),
  comb: fc.boolean(),
  align: fc.constantFrom('left', 'centre', 'right' as const),
});

describe('a value laid into a box', () => {
  it('either stands wholly within it, in letters that can be read, or not at all', () => {
    fc.assert(
      fc.property(anyCase, ({ text: words, width, height, border, size, multiline, comb, align }) => {
        const text = words.join(' ');
        const rect = { x: 0, y: 0, width, height };
        const shape = { multiline, comb, longest: comb ? 24 : undefined, size, align };
        const laid = layText(text, shape, { place: { page: 0, rect, width, height, border }, fonts });
        if (laid === undefined) return;
        expect(laid.size).toBeGreaterThanOrEqual(6);
        expect(size === 0 || laid.size <= size).toBe(true);
        for (const line of laid.lines) {
          expect(line.x).toBeGreaterThanOrEqual(-0.01);
          expect(line.x + fonts.widthOf(line.text, 'text', laid.size)).toBeLessThanOrEqual(width + 0.01);
          expect(line.y).toBeGreaterThanOrEqual(-0.01);
          expect(line.y + laid.size * 0.66).toBeLessThanOrEqual(height + 0.01);
        }
        // Blanks may become line ends, letters are never lost.
        const bare = (said: string) => said.replace(/\s/g, '');
        expect(bare(laid.lines.map((line) => line.text).join(''))).toBe(bare(text));
      }),
      { numRuns: 300, seed: 7 },
    );
  });
});
