import { describe, expect, it } from 'vitest';
import { differenceOf, looksLost } from '../../core/intake/judge.ts';
import { cleanText, type PageSight, scaleFor } from '../../core/intake/pdfium/read-page.ts';

function sight(change: Partial<PageSight> = {}, ink: readonly number[] = []): PageSight {
  const pixels = new Uint8Array(612 * 792).fill(255);
  for (const index of ink) pixels[index] = 0;
  return {
    width: 612,
    height: 792,
    text: 'Permit 4711',
    raster: { width: 612, height: 792, scale: 1, pixels },
    ...change,
  };
}
const run = (count: number) => Array.from({ length: count }, (_, index) => 200_000 + index);

describe('judging a kept page against its original', () => {
  it('finds nothing where nothing differs', () => {
    expect(differenceOf(sight({}, run(50)), sight({}, run(50)))).toBeUndefined();
  });

  it.each([
    ['a lost word', sight({}, run(100)), sight(), /picture differs in 100 places/],
    ['a lost comma', sight({}, run(4)), sight(), /picture differs/],
    ['something that appeared', sight(), sight({}, run(30)), /picture differs/],
    ['one letter of text', sight(), sight({ text: 'Permit 4712' }), /text differs/],
    ['a page cropped otherwise', sight(), sight({ height: 791 }), /page size differs/],
  ])('finds %s', (_what, before, after, say) => {
    expect(differenceOf(before, after)).toMatch(say);
  });

  it('forgives what no eye can see: a few pixels, a shade', () => {
    const shade = sight();
    shade.raster.pixels.fill(252);
    expect(differenceOf(sight(), shade)).toBeUndefined();
    expect(differenceOf(sight({}, run(3)), sight())).toBeUndefined();
  });

  it('notices a page that is blank though it holds text', () => {
    const text = 'The applicant shall keep the approved plans on the site until the final inspection';
    expect(looksLost(sight({ text }))).toBe(true);
    expect(looksLost(sight({ text }, run(100)))).toBe(false);
    expect(looksLost(sight({ text: '' }))).toBe(false);
  });
});

describe('the text of a page', () => {
  it.each([
    ['construc\ufffe\ntion', 'construction'],
    ['construc\ufffetion', 'construction'],
    ['parcel 0471\ufffe22', 'parcel 0471-22'],
    ['Ridge\u0002\nRoad', 'Ridge-Road'],
    ['one\r\ntwo\rthree', 'one\ntwo\nthree'],
    ['Cafe\u0301\0', 'Caf\u00e9'],
  ])('turns %j into %j', (raw, clean) => {
    expect(cleanText(raw)).toBe(clean);
  });
});

describe('the scale a page is measured at', () => {
  it('is 72 dpi for letter, 50 for large sheets, and never too much for memory', () => {
    expect(scaleFor(612, 792)).toBe(1);
    expect(scaleFor(3456, 2592)).toBeCloseTo(50 / 72);
    for (const side of [10_000, 100_000]) {
      expect((side * scaleFor(side, side)) ** 2).toBeLessThanOrEqual(6_000_001);
    }
  });
});
