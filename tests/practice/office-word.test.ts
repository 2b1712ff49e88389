import { describe, expect, it } from 'vitest';
import type { OfficeWord } from '../../core/practice/index.ts';
import { officeWord, readPractice } from '../../core/practice/index.ts';
import { commonLayers, errandOf, needOf, paperOf, under } from './common-layers.ts';

const common = readPractice(commonLayers);
const said = { who: 'R. Amsel', day: '2026-04-02' } as const;

function amendedBy(change: Pick<OfficeWord, 'target' | 'value'>): ReturnType<typeof readPractice> {
  return readPractice([...commonLayers, officeWord({ ...change, ...said }, common)]);
}

describe('the clerk said otherwise', () => {
  it('three sets instead of two: one amendment, on the clerk’s word', () => {
    const plans = needOf(
      amendedBy({ target: 'errands.permit-apply.needs.plans.copies', value: 3 }),
      'permit-apply',
      'plans',
    );
    expect(plans.copies).toBe(3);
    expect(plans.basis).toEqual({ on: 'the office told us', ...said });
    expect(needOf(common, 'permit-apply', 'plans').copies).toBe(2);
  });

  it('a note and a name with colons and quotes come through whole', () => {
    const change = {
      target: 'errands.permit-apply.needs.plans.copies',
      value: 3,
      day: said.day,
      who: 'R. "Red" Amsel: desk 2 # back room',
      note: 'one for the assessor: ask again in May, yes?',
    };
    const need = needOf(readPractice([...commonLayers, officeWord(change)]), 'permit-apply', 'plans');
    expect(need.basis).toEqual({ on: 'the office told us', who: change.who, day: change.day, note: change.note });
  });

  it('numbers, lists, yes and no, amounts, spans and hours can all be said', () => {
    const changes: readonly [string, OfficeWord['value']][] = [
      ['errands.permit-apply.fee', '512.50 usd'],
      ['errands.permit-apply.needs.plans.seal', ['wet']],
      ['errands.permit-apply.needs.zoning-letter.optional', false],
      ['errands.permit-apply.deliver.file_limit', '10 MB'],
      ['papers.septic-permit.good.lasts', '5 years'],
      ['offices.plan-review.intake_until', '14:30'],
      ['offices.zoning.exists', false],
    ];
    const layers = changes.map(([target, value]) => officeWord({ target, value, ...said }, common));
    const practice = readPractice([...commonLayers, ...layers]);
    expect(errandOf(practice, 'permit-apply').fee).toBe(51_250);
    expect(needOf(practice, 'permit-apply', 'plans').seal).toEqual(['wet']);
    expect(needOf(practice, 'permit-apply', 'zoning-letter').optional).toBe(false);
    expect(errandOf(practice, 'permit-apply').deliver).toMatchObject({ way: 'counter', fileLimit: 10_000_000 });
    expect(errandOf(practice, 'permit-apply').deliver.basis).toEqual({ on: 'the office told us', ...said });
    expect(paperOf(practice, 'septic-permit').clocks[0]).toMatchObject({ sort: 'lasts', span: { years: 5 } });
    expect(under(practice.offices, 'plan-review').intakeUntil).toBe('14:30');
    expect(under(practice.offices, 'zoning').exists).toBe(false);
  });

  it('"they don’t want it" drops the need', () => {
    const practice = amendedBy({ target: 'errands.permit-apply.needs.energy-report', value: 'drop' });
    expect(errandOf(practice, 'permit-apply').needs.map((need) => need.id)).not.toContain('energy-report');
  });

  it('a later word over an earlier one is the one that stands', () => {
    const target = 'errands.permit-apply.needs.plans.copies';
    const words = [3, 4, 3].map((value) => officeWord({ target, value, ...said }, common));
    expect(needOf(readPractice([...commonLayers, ...words]), 'permit-apply', 'plans').copies).toBe(3);
  });

  it('a target that isn’t there is refused at once, with the nearest that is', () => {
    const refuse = (target: string): void => {
      officeWord({ target, value: 3, ...said }, common);
    };
    expect(() => refuse('errands.permit-aply.fee')).toThrow(
      'There is no "permit-aply" under errands; did you mean "permit-apply"?',
    );
    expect(() => refuse('errands.permit-apply.needs.plan.copies')).toThrow(
      'There is no "plan" under errands.permit-apply.needs; did you mean "plans"?',
    );
    expect(() => refuse('erands.permit-apply.fee')).toThrow(
      'There is no part "erands" of a practice; did you mean "errands"?',
    );
    expect(() => refuse('errands')).toThrow('"errands" doesn\'t name a rule.');
    expect(() => officeWord({ target: 'errands.permit-apply.fee', value: 'free', who: ' ', day: said.day })).toThrow(
      'a word without a name is hearsay',
    );
  });

  it('without the practice at hand it is refused when read, in the same words', () => {
    const read = (target: string): void => {
      readPractice([...commonLayers, officeWord({ target, value: 3, ...said })]);
    };
    expect(() => read('errands.permit-aply.needs.plans.copies')).toThrow(
      'There is no "permit-aply" under errands; did you mean "permit-apply"?',
    );
    expect(() => read('errands.permit-apply.needs.plan.copies')).toThrow(
      'under errands.permit-apply.needs; did you mean "plans"?',
    );
    expect(() => read('errands.permit-apply.needs.plans.copys')).toThrow('knows no "copys"; did you mean "copies"?');
    expect(() => read('papers.septic-permit.facts.bedroms')).toThrow('did you mean "bedrooms"?');
  });

  it('a value of the wrong sort is refused', () => {
    expect(() => amendedBy({ target: 'errands.permit-apply.needs.plans.copies', value: 'three' })).toThrow(
      'is a whole number from 1 up, not "three"',
    );
    expect(() => amendedBy({ target: 'errands.permit-apply.needs', value: 3 })).toThrow('This section is a map');
  });

  it('an agreement said of many papers is amended by its own id', () => {
    const practice = amendedBy({ target: 'agreements.same-owner', value: 'drop' });
    expect(Object.keys(practice.agreements).filter((id) => id.startsWith('same-owner'))).toEqual([]);
  });
});
