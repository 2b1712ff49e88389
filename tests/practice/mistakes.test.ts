import { describe, expect, it } from 'vitest';
import { checkPractice, readPractice } from '../../core/practice/index.ts';
import { LotfileError } from '../../core/vocabulary/errors.ts';
import { mistakes } from './mistake-list.ts';
import { lineOf, smallCounty } from './small-county.ts';

describe('a mistake in a practice file is told with line and sentence', () => {
  it('the small county itself has none', () => {
    expect(checkPractice([{ name: 'small.yaml', text: smallCounty }]).problems).toEqual([]);
  });

  for (const { name, instead, write, told, on } of mistakes) {
    it(name, () => {
      expect(smallCounty).toContain(instead);
      const text = smallCounty.replace(instead, write);
      const { practice, problems } = checkPractice([{ name: 'small.yaml', text }]);
      expect(practice).toBeUndefined();
      const sentences = problems.map((problem) => problem.sentence).join('\n');
      expect(sentences).toContain(told);
      const found = problems.find((problem) => problem.sentence.includes(told));
      expect(found?.line).toBe(lineOf(on ?? write, text));
      expect(found?.column).toBeGreaterThan(0);
    });
  }

  it('all mistakes are told at once, in order, as file:line: sentence', () => {
    const text = smallCounty.replace('office: health', 'office: helth').replace('copies: 2', 'copies: two');
    const error = thrown(() => readPractice([{ name: 'small.yaml', text }]));
    expect(error).toBeInstanceOf(LotfileError);
    expect(error).toMatchObject({ code: 'bad practice', about: 'small.yaml' });
    expect((error instanceof Error ? error.message : '').split('\n')).toEqual([
      `small.yaml:${lineOf('office: helth', text)}: There is no office "helth"; did you mean "health"?`,
      `small.yaml:${lineOf('copies: two', text)}: "copies" of need "plans" of errand "apply" is a whole number from 1 up, not "two".`,
    ]);
  });

  it('a mistake in an amendment is told with the amendment’s own name and line', () => {
    const layers = [
      { name: 'small.yaml', text: smallCounty },
      { name: 'county.yaml', text: 'errands:\n  apply:\n    needs:\n      plans: {copies: none}\n' },
    ];
    expect(checkPractice(layers).problems).toMatchObject([{ layer: 'county.yaml', line: 4, column: 23 }]);
  });

  it('broken YAML is told and nothing of it is used', () => {
    const { problems } = checkPractice([{ name: 'small.yaml', text: 'errands: {apply: [' }]);
    expect(problems[0]?.sentence).toContain("This can't be read as YAML");
  });

  it('an empty file, a list and a bare word are no crash', () => {
    expect(checkPractice([{ name: 'e.yaml', text: '' }]).practice?.errands).toEqual({});
    for (const text of ['- a\n- b\n', 'hello']) {
      expect(checkPractice([{ name: 'e.yaml', text }]).problems[0]?.sentence).toContain('A practice file is a map');
    }
  });

  it('a wall of brackets is refused, not followed', () => {
    const { problems } = checkPractice([{ name: 'e.yaml', text: `errands: ${'['.repeat(5000)}` }]);
    expect(problems.length).toBeGreaterThan(0);
  });

  it('a figure nobody knows is told where the figures are known', () => {
    const text = smallCounty.replace('plans.bedrooms,', 'figure.bedroms,');
    expect(checkPractice([{ name: 's.yaml', text }]).problems).toEqual([]);
    const known = checkPractice([{ name: 's.yaml', text }], { figures: ['bedrooms'] });
    expect(known.problems[0]?.sentence).toBe('There is no figure "bedroms"; did you mean "bedrooms"?');
  });
});

function thrown(act: () => unknown): unknown {
  try {
    act();
  } catch (error) {
    return error;
  }
  return undefined;
}
