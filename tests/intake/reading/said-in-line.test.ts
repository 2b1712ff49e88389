import { describe, expect, it } from 'vitest';
import { readingOf } from './written.ts';

// Common practice, no source: how drawings, binders and letters say things without a label of their own.
describe('what a paper says in a line of words', () => {
  const plans = ['# CONSTRUCTION PLANS', 'Sheet A-1 Floor plan', 'Foundation plan', 'Drawn by: J. Calloway'];

  it('drawings tell bedrooms, revision and heated area; each wants a look', () => {
    const { kind, facts } = readingOf([
      ...plans,
      'Revision B, dated October 20, 2026',
      '3 bedrooms, 2 baths, 1,640 sq ft heated',
    ]);
    expect(kind).toBe('plans');
    expect(facts.bedrooms?.value).toEqual({ sort: 'count', value: 3 });
    expect(facts.revision?.value).toEqual({ sort: 'revision', value: 'B' });
    expect(facts.floor_area?.value).toMatchObject({ sort: 'area', value: 1640 });
    for (const fact of ['bedrooms', 'revision', 'floor_area']) expect(facts[fact]?.sureness, fact).toBe('likely');
  });

  it('two lines that differ are told as such, and a label of its own comes first', () => {
    const two = readingOf([...plans, '3 bedrooms, 2 baths', 'Option: 4-bedroom layout']).facts.bedrooms;
    expect(two?.sureness).toBe('guess');
    expect(two?.otherwise).toEqual([{ sort: 'count', value: 4 }]);
    const labelled = readingOf([...plans, 'Option: 4-bedroom layout', 'Number of bedrooms: 3']).facts.bedrooms;
    expect(labelled?.value).toEqual({ sort: 'count', value: 3 });
  });

  it('an area not told to be the heated one, a form’s own revision and a climate zone are none of them', () => {
    const { facts } = readingOf([...plans, 'Porch 240 sq ft, garage 576 sq ft', 'Form 12 (Rev. 10-2024)']);
    expect(facts.floor_area).toBeUndefined();
    expect(facts.revision).toBeUndefined();
    const zone = readingOf(['# FLOOD ZONE DETERMINATION', 'Climate Zone A, special flood hazard area']).facts;
    expect(zone.flood_zone).toBeUndefined();
  });

  it('a flood letter tells its zone, a binder its one sum of cover, a breakdown its total', () => {
    const flood = readingOf([
      '# FLOOD ZONE DETERMINATION',
      'Determination: Zone X (outside special flood hazard area)',
    ]);
    expect(flood.facts.flood_zone?.value).toEqual({ sort: 'text', value: 'X' });
    const binder = readingOf([
      "# BUILDER'S RISK INSURANCE BINDER",
      "Coverage: builder's risk, $285,000",
      'Deductible: $2,500',
      'Premium: $1,940',
    ]);
    expect(binder.facts.insured_value?.value).toMatchObject({ sort: 'money', value: 28_500_000 });
    expect(binder.issuer).toBeUndefined();
    const costs = readingOf(['# COST BREAKDOWN', 'Site work 18,000', 'Finishes 48,000', 'Total 254,800']);
    expect(costs.facts.valuation?.value).toMatchObject({ sort: 'money', value: 25_480_000 });
  });

  // Fixed bugs: each of these was read as the value.
  it('a zone one is not in, a limit of liability, a form’s revision and a total of square feet are none', () => {
    const flood = (line: string) => readingOf(['# FLOOD ZONE DETERMINATION', line]).facts.flood_zone;
    expect(flood('The structure is not located in Zone AE')).toBeUndefined();
    expect(flood('It lies outside of Zone A')).toBeUndefined();
    expect(flood('The building site is in Zone AE')?.value).toEqual({ sort: 'text', value: 'AE' });
    const binder = readingOf(["# BUILDER'S RISK INSURANCE BINDER", 'Liability limit: $1,000,000']);
    expect(binder.facts.insured_value).toBeUndefined();
    expect(readingOf([...plans, 'REV 05']).facts.revision).toBeUndefined();
    const costs = (line: string) => readingOf(['# COST BREAKDOWN', line]).facts.valuation;
    expect(costs('Total lot sq ft 43,560')).toBeUndefined();
    expect(costs('Total cost of construction $1,234,567')?.value).toMatchObject({ value: 123_456_700 });
  });

  it('an address letter names the address; the emergency number is not its number', () => {
    const { address, number } = readingOf([
      '# ADDRESS ASSIGNMENT',
      'Fenlow County E-911 Addressing Office',
      'The following address has been assigned: 771 Thistle Fork Road',
    ]);
    expect(address?.value).toBe('771 Thistle Fork Road');
    expect(number).toBeUndefined();
  });
});

// Fixed bugs: values of this kind were told as sure.
describe('where a name or an address ends', () => {
  const permit = '# Septic Permit';

  it('a name does not take in figures that touch it in a narrow table', () => {
    expect(readingOf([permit, 'Owner: Silas & Petra Brennick4547 Heronfoot Lane']).owner?.value).toBe(
      'Silas & Petra Brennick',
    );
    expect(readingOf([permit, 'Owner: Merrit & Petra Brennick$173,000']).owner?.value).toBe('Merrit & Petra Brennick');
  });

  it('a name of one word is never sure: it may go on in the next line', () => {
    expect(readingOf([permit, 'Owner: Silas']).owner).toMatchObject({ value: 'Silas', sureness: 'likely' });
  });

  it('an address that names no sort of road is never sure', () => {
    const said = readingOf([permit, 'Site Address: 5287 Tallow Creek']);
    expect(said.address).toMatchObject({ value: '5287 Tallow Creek', sureness: 'likely' });
  });

  it('an address ends at its road where another thing is said behind it', () => {
    const said = readingOf([permit, 'Site Address is 3440 Long Acre Rd. Air Changes/Hour is 4.70']);
    expect(said.address?.value).toBe('3440 Long Acre Rd');
  });
});
