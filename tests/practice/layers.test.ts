import { describe, expect, it } from 'vitest';
import { checkPractice, readPractice } from '../../core/practice/index.ts';
import type { Practice } from '../../core/vocabulary/practice.ts';
import { errandOf, inOneLine, needOf, paperOf, under } from './common-layers.ts';
import { lineOf, smallCounty } from './small-county.ts';

const small = { name: 'small.yaml', text: smallCounty };
const word = 'basis: {told by: Ann at the desk, on: 2026-04-02}\n';

function withLayer(text: string): Practice {
  return readPractice([small, { name: 'local.yaml', text }]);
}

function problems(text: string): readonly string[] {
  return checkPractice([small, { name: 'local.yaml', text }]).problems.map((one) => `${one.line}: ${one.sentence}`);
}

const told = { on: 'the office told us', who: 'Ann at the desk', day: '2026-04-02' };

describe('local amendments laid over common practice', () => {
  it('a changed value takes the layer’s word; the rules beside it keep theirs', () => {
    const practice = withLayer(`${word}errands: {apply: {needs: {plans: {copies: 3}}}}\n`);
    expect(needOf(practice, 'apply', 'plans')).toMatchObject({ copies: 3, basis: told });
    expect(needOf(practice, 'apply', 'form').basis).toEqual({ on: 'common practice' });
    expect(errandOf(practice, 'apply').basis).toEqual({ on: 'common practice' });
  });

  // Whoever told a fee was named as the source of everything else of that errand.
  it('a changed fee stands on the layer’s word, and nothing else of the errand does', () => {
    const practice = withLayer(`${word}errands: {apply: {fee: 300 usd}}\n`);
    expect(errandOf(practice, 'apply')).toMatchObject({
      fee: 30_000,
      basis: { on: 'common practice' },
      said: { fee: told },
    });
    expect(errandOf(withLayer('errands: {}\n'), 'apply').said).toBeUndefined();
    expect(needOf(practice, 'apply', 'plans').basis).toEqual({ on: 'common practice' });
  });

  it('a rule’s own basis goes before the layer’s', () => {
    const practice = withLayer(
      `${word}errands: {apply: {needs: {form: {copies: 2, basis: {published: handout, read: 2026-01-12}}}}}\n`,
    );
    expect(needOf(practice, 'apply', 'form').basis).toEqual({ on: 'published', source: 'handout', read: '2026-01-12' });
  });

  it('needs keep the order of the file; new ones come last, or where they say they go', () => {
    const practice = withLayer(
      'errands: {apply: {needs: {deed: {goes: after form}, binder: , septic-permit: {goes: first}}}}\n',
    );
    expect(errandOf(practice, 'apply').needs.map((need) => need.id)).toEqual([
      'septic-permit',
      'form',
      'deed',
      'plans',
      'licence',
      'binder',
    ]);
  });

  it('a rule that went after another stays where it is when that other is dropped and it is changed itself', () => {
    const practice = readPractice([
      small,
      { name: 'a.yaml', text: 'errands: {apply: {needs: {deed: {goes: after form}}}}\n' },
      { name: 'b.yaml', text: 'errands: {apply: {needs: {form: drop}}}\n' },
      { name: 'c.yaml', text: 'errands: {apply: {needs: {deed: {copies: 2}}}}\n' },
    ]);
    expect(errandOf(practice, 'apply').needs.map((need) => need.id)).toEqual([
      'deed',
      'plans',
      'septic-permit',
      'licence',
    ]);
  });

  it('"drop" takes out a need, a field, a condition, a whole rule', () => {
    const practice = withLayer(
      'errands: {apply: {fee: drop, needs: {licence: drop, septic-permit: {when: drop}}}}\nduties: {permit-alive: drop}\n',
    );
    expect(errandOf(practice, 'apply').fee).toBeUndefined();
    expect(errandOf(practice, 'apply').needs.map(inOneLine)).toEqual([
      'form, [signed, dated]',
      'plans, x2',
      'septic-permit',
    ]);
    expect(practice.duties).toEqual({});
  });

  it('lists are replaced, or changed by add and without', () => {
    const practice = withLayer(
      'errands: {apply: {bring: {add: [photo id]}, needs: {form: {marks: {add: [notarised], without: [dated]}}, plans: {marks: [scale drawn]}}}}\n',
    );
    expect(errandOf(practice, 'apply').bring).toEqual(['photo id']);
    expect(needOf(practice, 'apply', 'form').marks).toEqual(['signed', 'notarised']);
    expect(needOf(practice, 'apply', 'plans').marks).toEqual(['scale drawn']);
  });

  it('"only_needs" puts an office’s own list in the place of the common one', () => {
    const practice = withLayer(`${word}errands: {apply: {only_needs: {deed: {copies: 2}}}}\n`);
    expect(errandOf(practice, 'apply').needs.map(inOneLine)).toEqual(['deed, x2']);
    expect(errandOf(practice, 'apply').fee).toBe(24_000);
  });

  it('clocks are laid over one by one, and a lone word stands for one', () => {
    const practice = withLayer(
      'papers: {septic-permit: {good: {lasts: 5 years, until: drop}}, deed: {good: for good}}\n',
    );
    expect(paperOf(practice, 'septic-permit').clocks).toEqual([
      { sort: 'lasts', span: { years: 5 }, label: '5 years from issue' },
    ]);
    expect(paperOf(practice, 'deed').clocks).toEqual([{ sort: 'for good', label: 'for good' }]);
  });

  it('an office may not exist here', () => {
    expect(under(withLayer('offices: {roads: {exists: no}}\n').offices, 'roads').exists).toBe(false);
  });

  it('three layers: the last word stands', () => {
    const layer = (name: string, copies: number): { name: string; text: string } => ({
      name,
      text: `errands: {apply: {needs: {plans: {copies: ${copies}}}}}\n`,
    });
    const practice = readPractice([small, layer('a.yaml', 3), layer('b.yaml', 4)]);
    expect(needOf(practice, 'apply', 'plans').copies).toBe(4);
    expect(practice.layers).toEqual(['small.yaml', 'a.yaml', 'b.yaml']);
  });

  it('dropping what isn’t there, or going after nothing, is a mistake with line and near word', () => {
    expect(problems('errands:\n  apply:\n    needs:\n      plan: drop\n')).toEqual([
      '4: There is no "plan" here to drop; did you mean "plans"?',
    ]);
    expect(problems('errands:\n  apply:\n    needs:\n      deed: {goes: after forms}\n')).toEqual([
      '4: There is no "forms" to go after; did you mean "form"?',
    ]);
    expect(problems('errands:\n  apply:\n    needs:\n      form: {marks: {without: [sined]}}\n')).toEqual([
      '4: "sined" is not in the list, so nothing can go; did you mean "signed"?',
    ]);
  });

  it('dropping the errand that yields a needed paper is a mistake, told where the paper is asked for', () => {
    expect(problems('errands: {septic: drop}\n')).toEqual([
      `${lineOf('septic-permit: {when')}: The need "septic-permit" of errand "apply" asks for "septic-permit", which no errand yields; ` +
        'let an errand yield it, or mark the paper "brought: yes".',
    ]);
  });

  it('a layer that amends only may not bring anything new', () => {
    expect(problems('amends_only: yes\nerrands:\n  aply: {fee: free}\n')).toEqual([
      '3: There is no "aply" under errands; did you mean "apply"?',
    ]);
    expect(problems('amends_only: yes\nerrands:\n  apply:\n    needs:\n      plan: {copies: 3}\n')).toEqual([
      '5: There is no "plan" under errands.apply.needs; did you mean "plans"?',
    ]);
  });
});
