import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { linesAtMost, linesOf } from '../../core/typeset/lines.ts';
import { charactersOf, facedText, plainText, widthOf } from '../../core/typeset/plain-text.ts';
import { evenMetrics as metrics } from '../packet/plan-fixture.ts';

const style = { face: 'text', size: 10 } as const;
const bare = (text: string): string => plainText(text).replace(/[\s]/g, '');

describe('lines', () => {
  it('never come out wider than their box, however long the words are', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), fc.integer({ min: 20, max: 300 }), (text, width) => {
        for (const line of linesOf(text, style, { width, metrics })) {
          const single = charactersOf(line).length === 1;
          expect(single || widthOf(line, style, metrics) <= width + 0.01).toBe(true);
        }
      }),
    );
  });

  it('lose no character but the spaces they were broken at', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 200 }), fc.integer({ min: 20, max: 300 }), (text, width) => {
        expect(linesOf(text, style, { width, metrics }).join('').replace(/\s/g, '')).toBe(bare(text));
      }),
    );
  });

  it('break a number after its joints before they break it anywhere', () => {
    // 5 points a character: 12 fit.
    expect(linesOf('KF-88213-0044-REV', style, { width: 60, metrics })).toEqual(['KF-88213-', '0044-REV']);
  });

  it('keep a decomposed letter whole: NFC, and one grapheme never cut in two', () => {
    const decomposed = 'Ha\u0323nh Nguye\u0302\u0303n';
    expect(linesOf(decomposed, style, { width: 400, metrics })).toEqual(['Hạnh Nguyễn']);
    const family = 'x\u0332'.repeat(30);
    for (const line of linesOf(family, style, { width: 30, metrics })) expect(line.startsWith('x')).toBe(true);
  });

  it('end in an ellipsis where more was to say, and still fit', () => {
    const lines = linesOf('one two three four five', style, { width: 40, metrics });
    const kept = linesAtMost(lines, 2, { style, width: 40, metrics });
    expect(kept).toHaveLength(2);
    expect(kept[1]?.endsWith('…')).toBe(true);
    expect(widthOf(kept[1] ?? '', style, metrics)).toBeLessThanOrEqual(40);
  });
});

describe('plain text', () => {
  it('drops controls and direction marks and turns odd spaces into plain ones', () => {
    expect(plainText('a\u202eb\u00a0c\u0007d\u200be\r\nf')).toBe('ab c de\nf');
  });

  it('shows a square for a letter no face has, and tells which it was', () => {
    const faced = facedText('Lot 漢 7', 'text', metrics);
    expect(faced.runs.map(({ text }) => text).join('')).toBe('Lot □ 7');
    expect(faced.replaced).toEqual(['漢']);
  });
});
