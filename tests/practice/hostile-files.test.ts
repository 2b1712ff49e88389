import { describe, expect, it } from 'vitest';
import { checkPractice, readPractice } from '../../core/practice/index.ts';
import { Chance } from '../intake/fuzz/chance.ts';
import { commonLayers } from './common-layers.ts';

type Layers = readonly { readonly name: string; readonly text: string }[];

/** Either a whole practice or problems, each with a line that is there and a sentence without the insides of a program. */
function holds(layers: Layers): void {
  const { practice, problems } = checkPractice([...layers]);
  expect(practice === undefined).toBe(problems.length > 0);
  for (const { layer, line, sentence } of problems) {
    const lines = layers.find(({ name }) => name === layer)?.text.split('\n').length ?? 0;
    expect(line).toBeGreaterThanOrEqual(1);
    expect(line).toBeLessThanOrEqual(Math.max(1, lines));
    expect(sentence).toMatch(/\S.*[.!?…:"”)]$/s);
    expect(sentence).not.toMatch(/TypeError|RangeError|\[object |undefined|\n\s+at /);
  }
  expect(Object.hasOwn(Object.prototype, 'polluted')).toBe(false);
}

/** What may stand in a line in place of another: broken, foreign, too much, or just moved. */
const instead: readonly ((line: string, chance: Chance) => string)[] = [
  () => '',
  (line) => `${line}\n${line}`,
  (line) => line.replace(/^ +/, '\t'),
  (line) => ` ${line}`,
  (line) => line.replace(/^ {2}/, ''),
  (line) => line.replace(/:/, ''),
  (line) => line.replace(/\w+:/, '__proto__:'),
  (line) => line.replace(/\w+:/, 'constructor:'),
  (line) => line.replace(/\d+/, '99999999999999999999'),
  (line) => line.replace(/\d+/, '-1'),
  (line) => line.replace(/: .*/, ': {'),
  (line) => line.replace(/: .*/, ': 2026-02-30'),
  (line) => line.replace(/: .*/, ': !!js/function "x"'),
  (line) => line.replace(/: .*/, ': &a [*a]'),
  (line) => line.replace(/: .*/, ': "\\u202Egpj\\0"'),
  (line) => line.replace(/: .*/, `: ${'['.repeat(40)}${']'.repeat(40)}`),
  (line) => line.replace(/: .*/, ': |'),
  (line) => line.replace(/: .*/, ': 9999999 years'),
  (line, chance) => line.slice(0, chance.below(line.length + 1)),
  () => '--- # another document',
  () => '? {a: 1} : b',
  () => '\uFEFFerrands:',
];

describe('a shipped practice file that somebody or something changed', () => {
  it('ends in a practice or in problems with their lines, twelve times at random (seed 5)', () => {
    const chance = new Chance(5);
    const layers = commonLayers;
    for (let n = 0; n < 12; n += 1) {
      const at = chance.below(layers.length);
      const changed = layers.map((layer, place) => {
        if (place !== at) return layer;
        const lines = layer.text.split('\n');
        for (let times = 1 + chance.below(3); times > 0; times -= 1) {
          const line = chance.below(lines.length);
          lines[line] = chance.of(instead)(lines[line] ?? '', chance);
        }
        return { ...layer, text: lines.join('\n') };
      });
      holds(changed);
    }
  });
});

describe('a practice file made to harm', () => {
  const sentences = (text: string): string => {
    const layers = [{ name: 'x.yaml', text }];
    holds(layers);
    return checkPractice(layers)
      .problems.map(({ sentence }) => sentence)
      .join('\n');
  };

  it('of anchors that unfold a billionfold is refused without unfolding them', () => {
    const rows = Array.from(
      { length: 12 },
      (_, n) => `  a${n + 1}: &a${n + 1} [${Array(10).fill(`*a${n}`).join(', ')}]`,
    );
    const text = ['title: X', 'offices:', '  a0: &a0 {title: lol}', ...rows].join('\n');
    expect(sentences(text)).toContain('no anchors and aliases');
  });

  it('nested a thousand and twenty thousand deep is refused with that word, and the stack holds', () => {
    for (const depth of [1000, 20_000]) {
      expect(sentences(`errands: ${'['.repeat(depth)}${']'.repeat(depth)}`)).toContain('12 deep');
      expect(sentences(`errands: ${'{a: '.repeat(depth)}1${'}'.repeat(depth)}`)).toContain('12 deep');
    }
    expect(sentences(Array.from({ length: 300 }, (_, n) => `${' '.repeat(n)}a:`).join('\n'))).not.toBe('');
  });

  it('of a million letters and more is refused by its length', () => {
    expect(sentences(`title: ${'x'.repeat(1_000_001)}`)).toContain('larger than a million letters');
  });

  it('of very many rows or mistakes is answered', () => {
    expect(
      sentences(`errands:\n${Array.from({ length: 400 }, (_, n) => `  e${n}: {office: nowhere}`).join('\n')}`),
    ).toContain('nowhere');
  });

  it('with tags, directives, several documents or bytes of another sort is no practice', () => {
    for (const text of [
      '!!js/function x',
      '%YAML 9.9\n---\na: b',
      'a: 1\n---\nb: 2',
      '\u0000\u0001PK\u0003',
      '<<: {a: 1}',
    ]) {
      expect([text, sentences(text) !== '']).toEqual([text, true]);
    }
  });
});

// A find of the fuzz: a file of another sort was refused with a sentence of 293,047 letters.
describe('a practice file with thousands of mistakes, or one endless word', () => {
  it.each([
    [Array.from({ length: 1500 }, (_, n) => `wrong_${n}: 1`).join('\n'), /\nAnd \d+ more mistakes\.$/],
    [`papers:\n  deed: { from: ${'x'.repeat(300_000)} }`, /x …/],
  ])('is refused in words a person can read through (%#)', (text, told) => {
    const layers = [{ name: 'county.yaml', text }];
    // What is looked for and found stays whole; only the sentence of the refusal is shortened.
    expect(
      checkPractice(layers)
        .problems.map(({ sentence }) => sentence)
        .join('\n').length,
    ).toBeGreaterThan(50_000);
    const refusal = (): unknown => readPractice(layers);
    expect(refusal).toThrow(/^county\.yaml:\d: /);
    expect(refusal).toThrow(told);
    expect(refusal).toThrow(expect.objectContaining({ message: expect.stringMatching(/^[\s\S]{9,20000}$/) }));
  });
});
