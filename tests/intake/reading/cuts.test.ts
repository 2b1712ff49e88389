import { describe, expect, it } from 'vitest';
import { suggestCuts } from '../../../core/intake/reading/suggest-cuts.ts';
import { blankPage } from '../reading-set/bundles.ts';
import { common, pageOf, today } from './written.ts';

const prose = [
  '',
  'The work shall follow the plans.',
  'Keep this sheet with the others.',
  '',
  'Ask at the desk before you change it.',
];
const septic = (number: string) => [
  '# SEPTIC PERMIT',
  `Permit No.: ${number}`,
  'Date Issued: 03/02/2026',
  'Owner: Ada Brennick',
  ...prose,
];
const driveway = [
  '# DRIVEWAY PERMIT',
  'Permit No.: DW-118',
  'Date Issued: 03/09/2026',
  'Owner: Ada Brennick',
  ...prose,
];

/** A sheet with ink and not one word. */
const drawing = [''];

/** A scan of these pages; an empty one is blank. */
function cutsOf(...pages: readonly (readonly string[])[]) {
  const texts = pages.map((lines, page) => (lines.length === 0 ? blankPage(page) : { ...pageOf(lines), page }));
  return suggestCuts(texts, common, today);
}

const ranges = (cuts: ReturnType<typeof cutsOf>) => cuts.map(({ from, to, kind }) => [from + 1, to + 1, kind]);

describe('a scan of many pages looks like several papers', () => {
  it('where a heading names another kind, with its words', () => {
    const cuts = cutsOf(septic('EH-26-0417'), ['GENERAL CONDITIONS', ...prose], driveway);
    expect(ranges(cuts)).toEqual([
      [1, 2, 'septic-permit'],
      [3, 3, 'driveway-permit'],
    ]);
    expect(cuts.map(({ because }) => because)).toEqual([undefined, 'It reads “DRIVEWAY PERMIT”.']);
  });

  it('where the same kind bears another number, be it the next one', () => {
    const cuts = cutsOf(septic('EH-26-0417'), septic('EH-26-0418'));
    expect(ranges(cuts)).toHaveLength(2);
    expect(cuts[1]?.because).toBe('The pages before bear the number EH-26-0417, this one EH-26-0418.');
  });

  it('where a page counts itself the first', () => {
    const letter = ['Dear neighbour,', ...prose, 'Page 1 of 1'];
    expect(ranges(cutsOf(septic('EH-26-0417'), letter))).toEqual([
      [1, 1, 'septic-permit'],
      [2, 2, undefined],
    ]);
  });

  it('the blank back of a last sheet belonging to none', () => {
    expect(ranges(cutsOf(septic('EH-26-0417'), [], driveway, []))).toEqual([
      [1, 1, 'septic-permit'],
      [3, 3, 'driveway-permit'],
    ]);
  });

  it('a drawing without a word belonging to the paper before it (it fell out as if blank)', () => {
    expect(ranges(cutsOf(septic('EH-26-0417'), drawing, driveway))).toEqual([
      [1, 2, 'septic-permit'],
      [3, 3, 'driveway-permit'],
    ]);
    expect(ranges(cutsOf(septic('EH-26-0417'), driveway, drawing)).at(-1)).toEqual([2, 3, 'driveway-permit']);
  });

  it('a blank first page belonging to none (it became a paper)', () => {
    expect(ranges(cutsOf([], septic('EH-26-0417'), driveway))).toEqual([
      [2, 2, 'septic-permit'],
      [3, 3, 'driveway-permit'],
    ]);
    expect(cutsOf([], [])).toEqual([]);
  });
});

describe('a paper of many pages stays one', () => {
  it.each([
    ['its head stands on every page', septic('EH-26-0417')],
    ['a page is counted on', [...driveway, 'Page 2 of 3']],
    ['a page goes on', ['# DRIVEWAY PERMIT (continued)', 'Permit No.: DW-118', 'Owner: Ada Brennick', ...prose]],
    ['something is attached', ['# EXHIBIT A: DRIVEWAY PERMIT', 'Permit No.: DW-118', 'Owner: Ada Brennick', ...prose]],
    ['a heading speaks of another paper, and nothing on the page is its own', ['# DRIVEWAY PERMIT', ...prose]],
    [
      'only sentences speak of other papers',
      ['The driveway permit, the building permit and the deed shall be shown.', ...prose],
    ],
  ])('where %s', (_, second) => {
    expect(ranges(cutsOf(septic('EH-26-0417'), second))).toEqual([[1, 2, 'septic-permit']]);
  });

  it('with a blank page inside of it', () => {
    expect(ranges(cutsOf(septic('EH-26-0417'), [], ['NOTES', ...prose]))).toEqual([[1, 3, 'septic-permit']]);
  });

  it('of a single page is never cut', () => {
    expect(cutsOf(driveway)).toEqual([]);
  });
});
