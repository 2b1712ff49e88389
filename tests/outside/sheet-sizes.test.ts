import { describe, expect, test } from 'vitest';
import { isSheetName, sheetNameOf, sheetNames, sheetSizes } from '../../core/vocabulary/sheets.ts';

/** Source: ANSI/ASME Y14.1 as tabled at en.wikipedia.org/wiki/ANSI/ASME_Y14.1; inches, 72 points each. */
const ansi = {
  letter: [8.5, 11],
  'ansi-b': [11, 17],
  'ansi-c': [17, 22],
  'ansi-d': [22, 34],
  'ansi-e': [34, 44],
  'ansi-f': [28, 40],
};
/** Source: ARCH B at papersizer.com; ARCH D and E1 at graphics-cad.blogspot.com (2009/11); the halving series beside. */
const arch = {
  'arch-a': [9, 12],
  'arch-b': [12, 18],
  'arch-c': [18, 24],
  'arch-d': [24, 36],
  'arch-e1': [30, 42],
  'arch-e': [36, 48],
  legal: [8.5, 14],
};
/** Source: ISO 216, millimetres. */
const iso = { a4: [210, 297], a3: [297, 420], a2: [420, 594], a1: [594, 841], a0: [841, 1189] };

function sizeOf(name: string): readonly [number, number] {
  if (!isSheetName(name)) throw new Error(`${name} is no sheet name.`);
  return sheetSizes[name];
}

describe('sheet sizes', () => {
  test.each(Object.entries({ ...ansi, ...arch }))('%s is its inches times 72', (name, [width = 0, height = 0]) => {
    expect(sizeOf(name)).toEqual([width * 72, height * 72]);
  });

  test.each(Object.entries(iso))('%s is its millimetres to within half a point', (name, [width = 0, height = 0]) => {
    const [w, h] = sizeOf(name);
    expect(Math.abs(w - (width / 25.4) * 72)).toBeLessThan(0.5);
    expect(Math.abs(h - (height / 25.4) * 72)).toBeLessThan(0.5);
  });

  test('every table above names every sheet there is', () => {
    expect(new Set(sheetNames)).toEqual(new Set(Object.keys({ ...ansi, ...arch, ...iso })));
  });

  test('a page is named in either orientation, two points off and all', () => {
    for (const name of sheetNames) {
      const [width, height] = sheetSizes[name];
      expect(sheetNameOf(width, height)).toBe(name);
      expect(sheetNameOf(height + 2, width - 2)).toBe(name);
    }
    expect(sheetNameOf(700, 900)).toBeUndefined();
  });
});
