import { describe, expect, it } from 'vitest';
import { toldByPapers } from '../../core/desk/features/card-told.ts';
import { asDay } from '../../core/vocabulary/days.ts';
import type { Answer, FactValue } from '../../core/vocabulary/facts.ts';
import type { LotView } from '../../core/vocabulary/lot.ts';
import { common } from '../intake/reading/written.ts';
import { edition, lot, paper } from '../readiness/making.ts';

const day = asDay('2026-07-15');

function kept(kind: string, facts: Readonly<Record<string, FactValue>>): LotView['papers'][number] {
  return paper(kind, [edition(`${kind}-e`, { issued: asDay('2026-03-02'), facts })]);
}

function told(question: string, papers: LotView['papers'], answer?: Answer) {
  const asked = common.questions[question];
  if (asked === undefined) throw new Error(`no question ${question}`);
  const answers = answer === undefined ? {} : { [question]: answer };
  return toldByPapers(asked, { practice: common, lot: lot({ papers, answers }), day });
}

const bedrooms = (value: number): FactValue => ({ sort: 'count', value });

describe('what papers say to the record card', () => {
  const plans = kept('plans', { bedrooms: bedrooms(3), floor_area: { sort: 'area', value: 1860 } });

  it('is offered while nobody answered, as the answer is written', () => {
    expect(told('bedrooms', [plans])).toEqual([{ answer: '3', say: '3', papers: ['House plans'] }]);
    expect(told('floor_area', [plans])).toEqual([{ answer: '1860', say: '1,860 sq ft', papers: ['House plans'] }]);
    expect(told('bedrooms', [plans], { sort: "don't know yet" })).toHaveLength(1);
    expect(told('bedrooms', [])).toEqual([]);
  });

  it('names papers that agree together and those that differ apart, the answer given left out', () => {
    const permit = kept('septic-permit', { bedrooms: bedrooms(3) });
    expect(told('bedrooms', [plans, permit])[0]?.papers.toSorted()).toEqual(['House plans', 'Septic permit']);
    const four = kept('plans', { bedrooms: bedrooms(4) });
    expect(told('bedrooms', [four, permit], bedrooms(3))).toEqual([{ answer: '4', say: '4', papers: ['House plans'] }]);
    expect(told('bedrooms', [plans, permit], bedrooms(3))).toEqual([]);
  });

  it('is a choice only where the question knows it', () => {
    const letter = (value: string) => kept('flood-determination', { flood_zone: { sort: 'text', value } });
    expect(told('flood_zone', [letter('x')])).toEqual([{ answer: 'X', say: 'X', papers: ['Flood zone letter'] }]);
    expect(told('flood_zone', [letter('outside')])).toEqual([]);
  });
});
