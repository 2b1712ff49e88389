import { describe, expect, it } from 'vitest';
import { filledTexts, outOfDate } from '../../core/forms/out-of-date.ts';
import { printValue } from '../../core/forms/print-value.ts';
import { recognise } from '../../core/forms/recognise.ts';
import { readPractice } from '../../core/practice/index.ts';
import { indexLot, readErrand } from '../../core/readiness/index.ts';
import { changeInWords } from '../../core/vocabulary/forms.ts';
import type { LotView } from '../../core/vocabulary/lot.ts';
import { smallCounty } from '../practice/small-county.ts';
import { d, edition, lot, paper } from '../readiness/making.ts';

import { field, heron, whole } from './box-kit.ts';

describe('values as a form wants them', () => {
  // Sums by hand; days after ISO 8601 and the usual order of a United States form (common practice, no source).
  it.each([
    [{ sort: 'day', value: '2026-04-07' } as const, undefined, '4/7/2026'],
    [{ sort: 'day', value: '2026-04-07' } as const, 'mm/dd/yyyy' as const, '04/07/2026'],
    [{ sort: 'day', value: '2026-04-07' } as const, 'year' as const, '2026'],
    [{ sort: 'money', value: 39_840_000 } as const, undefined, '$398,400'],
    [{ sort: 'money', value: 39_840_000 } as const, 'digits' as const, '398400'],
    [{ sort: 'money', value: 39_840_050 } as const, 'digits' as const, '398400.50'],
    [{ sort: 'money', value: 39_840_000 } as const, 'with cents' as const, '398,400.00'],
    [{ sort: 'area', value: 1860 } as const, 'with unit' as const, '1,860 sq ft'],
    [{ sort: 'number', value: 3.1 } as const, undefined, '3.1'],
    [{ sort: 'parcel number', value: '041-22-0070' } as const, 'digits' as const, '041220070'],
    [{ sort: 'name', value: 'Tomás' } as const, 'capitals' as const, 'TOMÁS'],
  ])('%j as %s is %s', (value, as, text) => {
    expect(printValue(value, as)).toEqual({ text });
  });
});

describe('a blank is known by its boxes', () => {
  it('by its hash, by all the names that give it away, as another issue, or not at all', () => {
    const { form, blank } = whole('a: place, b: parcel, c: owner', [field('a'), field('b'), field('c')]);
    expect(recognise({ ...form, sha256: 'f'.repeat(64) }, blank, 'f'.repeat(64))).toBe('this very file');
    expect(recognise(form, blank, '')).toBe('its boxes');
    expect(recognise(form, { ...blank, fields: blank.fields.slice(0, 2) }, '')).toBe('another issue');
    expect(recognise(form, { ...blank, fields: [] }, '')).toBe('no');
  });
});

describe('a filled copy goes out of date', () => {
  const text = `forms:
  application:
    title: Application
    boxes: { where: place, cost: lot.cost }
errands:
  apply: { needs: { form: { fill: forms/application } } }
`;
  const practice = readPractice([
    { name: 'small.yaml', text: smallCounty },
    { name: 'forms.yaml', text },
  ]);
  const filled = { form: 'application', values: { where: 'Lot 7, Heron Lane', cost: '$1' } };

  it('where a fact is another by now; what is not known any more is no reproach', () => {
    const at = indexLot({ practice, lot: heron, day: d('2026-04-14') });
    expect(outOfDate(filled, at, undefined)).toEqual([
      { field: 'where', title: 'Where', was: 'Lot 7, Heron Lane', now: '418 Heron Lane' },
    ]);
    expect(outOfDate({ ...filled, form: 'gone' }, at, undefined)).toEqual([]);
  });

  it('where an owner came in or is gone, or a firm; what was left open says nothing', () => {
    const owners = (...names: readonly string[]) =>
      lot({ identities: names.map((name) => ({ sort: 'owner', text: name }) as const), subjects: heron.subjects });
    const boxes = 'one: owner 1, two: owner 2, begun: { is: event.begun, optional: yes }';
    const rows = `    rows:
      firms: { each: engagement, room: 3, boxes: { "firm_{n}": firm } }
`;
    const fields = ['one', 'two', 'begun', 'firm_1', 'firm_2', 'firm_3'].map((name) => field(name));
    const of = (given: LotView) => whole(boxes, fields, rows, given);
    const filledAs = ({ form, at }: ReturnType<typeof of>) => ({
      form: 'application',
      values: filledTexts(form, { at, subject: undefined }),
    });
    const [alone, both] = [of(owners('A. Roe')), of(owners('A. Roe', 'B. Roe'))];
    const third = {
      id: 'd',
      sort: 'engagement',
      title: 'Sill Roofing',
      firm: 'Sill Roofing',
      from: d('2026-08-01'),
    } as const;
    const roofed = of({ ...owners('A. Roe'), subjects: [...heron.subjects, third] });
    expect(outOfDate(filledAs(both), alone.at, undefined)).toMatchObject([{ field: 'two', was: 'B. Roe', now: '' }]);
    expect(outOfDate(filledAs(alone), both.at, undefined)).toMatchObject([{ field: 'two', was: '', now: 'B. Roe' }]);
    expect(outOfDate(filledAs(alone), roofed.at, undefined)).toMatchObject([
      { field: 'firm_3', was: '', now: 'Sill Roofing' },
    ]);
    expect(outOfDate(filledAs(both), both.at, undefined)).toEqual([]);
    const begun = { form: 'application', values: { one: 'A. Roe', begun: '4/1/2026' } };
    expect(outOfDate(begun, alone.at, undefined)).toEqual([]);
    const sentences = [
      { was: 'B. Roe', now: '' },
      { was: '', now: 'B. Roe' },
    ].map(changeInWords);
    expect(sentences).toEqual([
      'filled with "B. Roe", and there is none by now',
      'left empty, and it is "B. Roe" by now',
    ]);
  });

  it('and the office’s reading says so, of the signed copy too that took its place', () => {
    const papers = [
      ...heron.papers,
      paper('form', [
        edition('filled', { received: d('2025-04-01'), filled }),
        edition('signed', { received: d('2025-04-02'), links: [{ word: 'replaces', to: 'filled' }] }),
      ]),
    ];
    const said = readErrand('apply', { practice, lot: { ...heron, papers }, day: d('2026-04-14') });
    const found = said.findings.filter(({ kind, sort }) => kind === 'form' && sort === 'stale');
    expect(found.map(({ say, weight }) => [weight, say])).toEqual([
      [
        'questioned',
        '"Form" is out of date. Where: filled with "Lot 7, Heron Lane", and it is "418 Heron Lane" by now.',
      ],
    ]);
  });
});
