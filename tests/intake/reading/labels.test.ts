import { describe, expect, it } from 'vitest';
import { readingOf } from './written.ts';

describe('labels and their values', () => {
  it('finds values beside, below, after a gap and inside a sentence', () => {
    const beside = readingOf(['# WELL PERMIT', 'Permit No.: WP-4711', 'Parcel ID: 041-22-0070']);
    const below = readingOf(['# WELL PERMIT', 'Permit No.  Parcel ID', 'WP-4711     041-22-0070']);
    const apart = readingOf(['# WELL PERMIT', 'Permit No.  WP-4711', 'Parcel ID   041-22-0070']);
    const said = readingOf(['# WELL PERMIT', 'Permit No. is WP-4711. Parcel ID is 041-22-0070.']);
    for (const { number, parcel } of [beside, below, apart, said]) {
      expect([number?.value, parcel?.value]).toEqual(['WP-4711', '041-22-0070']);
    }
  });

  it('forgives split, joined and misread labels', () => {
    const { number, issued } = readingOf(['# WELL PERMIT', 'Perm it No.: WP-4711', 'DateIssued: March 14, 2026']);
    expect(number?.value).toBe('WP-4711');
    expect(issued?.value).toBe('2026-03-14');
    expect(readingOf(['Expiratlon Date: March 14, 2026']).goodThrough?.value).toBe('2026-03-14');
  });

  it('does not take "Eff." for "Exp.", nor figures for letters', () => {
    const { effective, goodThrough, owner } = readingOf([
      '# CERTIFICATE OF LIABILITY INSURANCE',
      'Policy Eff. Date  Policy Exp. Date',
      '05/17/2026        05/17/2027',
      'Issued 20 December 2025',
    ]);
    expect([effective?.value, goodThrough?.value]).toEqual(['2026-05-17', '2027-05-17']);
    expect(owner).toBeUndefined();
  });

  it('says where the value and its label stand', () => {
    const { number } = readingOf(['# WELL PERMIT', 'Permit No.: WP-4711']);
    expect(number?.place).toEqual({
      page: 0,
      box: { x: 60 + 12 * 6, y: 724, width: 42, height: 10 },
      words: 'WP-4711',
    });
    expect(number?.because?.words).toBe('Permit No.:');
  });

  it('takes no phone, receipt, amount or date for the paper’s number', () => {
    const { number } = readingOf([
      '# WELL PERMIT',
      'Phone (555) 555-0142',
      'Receipt No. 88213',
      'Permit: $325.00',
      'Permit: 03/04/2026',
    ]);
    expect(number).toBeUndefined();
  });

  it('is not sure of a number that may belong to another paper', () => {
    const { number } = readingOf(['# CERTIFICATE OF OCCUPANCY', 'Permit: BP-26-0412', 'Date Issued: March 14, 2026']);
    expect(number?.sureness).not.toBe('sure');
  });

  it('takes the number in the heading before that of the permit it mentions', () => {
    const { number } = readingOf(['# CERTIFICATE OF OCCUPANCY CO-26-0061', 'Permit: BP-26-0412']);
    expect(number).toMatchObject({ value: 'CO-26-0061', sureness: 'likely' });
  });

  it('is not sure where two values are labelled the same', () => {
    const { goodThrough } = readingOf([
      '# BUILDING PERMIT',
      'Expiration Date: March 14, 2026',
      'Expiration Date: April 14, 2026',
    ]);
    expect(goodThrough?.sureness).not.toBe('sure');
    expect(goodThrough?.otherwise).toEqual(['2026-04-14']);
  });

  it('reads only the facts that the kind asks for', () => {
    const { kind, facts } = readingOf([
      '# ONSITE SEWAGE SEPTIC PERMIT',
      'Bedrooms: 3',
      'Owner: Ada Brennick',
      'Loan Amount: $300,000',
      'Site Address: 410 Sawpit Road',
    ]);
    expect(kind).toBe('septic-permit');
    expect(new Set(Object.keys(facts))).toEqual(new Set(['address', 'bedrooms', 'owner']));
    expect(facts.bedrooms?.value).toEqual({ sort: 'count', value: 3 });
  });

  it('never gives an elevation without its datum', () => {
    const sheet = (level: string) =>
      readingOf(['# ELEVATION CERTIFICATE', `Lowest Floor Elevation: ${level}`]).facts.lowest_floor?.value;
    expect(sheet('212.5 ft NAVD88')).toEqual({ sort: 'elevation', value: { feet: 212.5, datum: 'NAVD 88' } });
    expect(sheet('212.5 ft')).toBeUndefined();
  });

  it('takes only what can be a result for one', () => {
    const of = (result: string) =>
      readingOf(['# FRAMING INSPECTION REPORT', `Inspection Result: ${result}`]).facts.result?.value;
    expect(of('Not approved')).toEqual({ sort: 'text', value: 'Not approved' });
    expect(of('Footings')).toBeUndefined();
  });
});

describe('what a scan leaves in doubt', () => {
  const lines = ['# WELL PERMIT', 'Permit No.: 4711-22', 'Expires on: March 14, 2026'];

  it('is sure where both looks agree', () => {
    const { number, goodThrough } = readingOf(lines, {});
    expect([number?.sureness, goodThrough?.sureness]).toEqual(['sure', 'sure']);
  });

  it('is not sure where the looks differ, or hardly a letter was seen', () => {
    expect(readingOf(lines, { '4711-22': { again: '4717-22' } }).number?.sureness).not.toBe('sure');
    expect(readingOf(lines, { '2026': { again: '2025' } }).goodThrough?.sureness).not.toBe('sure');
    expect(readingOf(lines, { '14,': { certainty: 0.2 } }).goodThrough?.sureness).not.toBe('sure');
  });

  it('is not sure of an id in which a letter may be a figure', () => {
    expect(readingOf(['# CERTIFICATE OF OCCUPANCY', 'Certificate No.: CO6519'], {}).number?.sureness).toBe('likely');
  });

  it('is never sure of names and addresses', () => {
    const { owner, address } = readingOf(
      ['# WELL PERMIT', 'Owner: Ada Lundqvell', 'Site Address: 410 Sawpit Road'],
      {},
    );
    expect([owner?.sureness, address?.sureness]).toEqual(['likely', 'likely']);
  });
});
