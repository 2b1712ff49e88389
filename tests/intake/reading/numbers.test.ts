import { describe, expect, it } from 'vitest';
import { withBestLooks } from '../../../core/intake/reading/best-looks.ts';
import { withInitials } from '../../../core/intake/reading/number-initials.ts';
import { common, type Doubtful, pageOf, readingOf, today } from './written.ts';

function best(text: string, looks: Doubtful): string {
  return withBestLooks(pageOf([text], { [text]: looks })).lines[0]?.words[0]?.text ?? '';
}

const code = (text: string, certainty = 0.7) => ({ text, certainty });

describe('of several looks at a number', () => {
  it('what two of them saw is believed', () => {
    expect(best('C06519', { again: 'CO6519', code: code('CO6519') })).toBe('CO6519');
    expect(best('AS53339302.', { again: 'A53339302.', code: code('A53339302.') })).toBe('A53339302.');
    expect(best('CO9039', { again: 'C09039', code: code('CO9039') })).toBe('CO9039');
  });

  it('a third one outweighs two only where it is the surest by far', () => {
    expect(best('1241074', { again: '1241074', certainty: 0.6, code: code('L241074', 0.86) })).toBe('L241074');
    expect(best('B-2026-3097', { again: 'B-2026-3097', certainty: 0.86, code: code('B-2026-3037', 0.2) })).toBe(
      'B-2026-3097',
    );
  });

  it('the one for capitals alone is believed where a small letter was seen beside its capital', () => {
    expect(best('2022-wW', { again: '90922-w', code: code('2022-W', 0) })).toBe('2022-W');
  });

  it('a capital that only one look lost stays', () => {
    expect(best('WP-3622', { again: 'yp_362p', code: code('W-3622', 0) })).toBe('WP-3622');
    expect(best('co1229', { again: 'o1229', code: code('01229', 0.3) })).toBe('CO1229');
    expect(best('26-5-465', { again: '26-S-465' })).toBe('26-S-465');
  });

  it('the fifth is one only beside a month; a lot or a unit of two signs stays as it was seen', () => {
    const day = (text: string, looks: Doubtful) =>
      withBestLooks(
        pageOf([text], { [text.split(' ').find((word) => /\d/.test(word)) ?? '']: looks }),
      ).lines[0]?.words.map((word) => word.text);
    expect(day('5S April', { again: '5' })).toEqual(['5', 'April']);
    expect(day('April 5S', { again: '5' })).toEqual(['April', '5']);
    expect(day('Lot 1B', { again: '18', certainty: 0.95 })).toEqual(['Lot', '1B']);
    expect(day('Unit A1', { again: '41', certainty: 0.95 })).toEqual(['Unit', 'A1']);
  });

  it('amounts keep their commas', () => {
    expect(best('17,027', { again: '17.027' })).toBe('17,027');
  });

  it('what was seen in two ways is never sure, and the other way is offered', () => {
    const { number } = readingOf(['# Septic Permit', 'Permit No.: EH26471'], {
      EH26471: { again: 'EH26411', code: code('EH26411', 0.9) },
    });
    expect(number?.value).toBe('EH26411');
    expect(number?.sureness).not.toBe('sure');
    expect(number?.otherwise).toContain('EH26471');
  });

  it('a page’s own text is taken as it is', () => {
    const own = pageOf(['C06519']);
    expect(withBestLooks(own)).toBe(own);
  });
});

describe('the first letters of a number off a scan', () => {
  const [occupancy, zoning, septic] = ['occupancy-certificate', 'zoning-letter', 'septic-permit'].map(
    (id) => common.papers[id],
  );

  it('are the paper’s initials where they were taken for figures', () => {
    expect(withInitials('C0-26-0872', occupancy, today)).toBe('CO-26-0872');
    expect(withInitials('C0O9039', occupancy, today)).toBe('CO9039');
    expect(withInitials('726-616', zoning, today)).toBe('Z26-616');
  });

  it('stay figures where nothing speaks for letters: no year behind, another paper’s initials', () => {
    expect(withInitials('726-616', septic, today)).toBe('726-616');
    expect(withInitials('2026-616', zoning, today)).toBe('2026-616');
    expect(withInitials('799-616', zoning, today)).toBe('799-616');
    expect(withInitials('C0-26-0872', undefined, today)).toBe('C0-26-0872');
  });

  const paper = ['# CERTIFICATE OF OCCUPANCY', 'Certificate No.: C0-26-0872'];

  it('put right are never sure, and as they were read they are offered', () => {
    const { number } = readingOf(paper, {});
    expect(number).toMatchObject({ value: 'CO-26-0872', sureness: 'likely', otherwise: ['C0-26-0872'] });
    expect(number?.doubts.join(' ')).toMatch(/read as C0-26-0872/);
  });

  it('of a page’s own text are not touched', () => {
    expect(readingOf(paper).number?.value).toBe('C0-26-0872');
  });
});

// "055-12-0031 4.02" was suggested: the acreage stood behind several spaces on the same line.
describe('a parcel number', () => {
  const parcel = (line: string) => readingOf(['# BOUNDARY SURVEY', line]).parcel?.value;

  it('ends where the acreage beside it begins', () => {
    expect(parcel('Parcel No. 055-12-0031 4.02')).toBe('055-12-0031');
    expect(parcel('Parcel No. 055-12-0031   4.02 acres')).toBe('055-12-0031');
    expect(parcel('Parcel No. 0551 20031 4.02 acres')).toBe('0551 20031');
  });

  it('keeps groups with points, strokes or spaces that are its own', () => {
    expect(parcel('Parcel No. 041 22.01 0070')).toBe('041 22.01 0070');
    expect(parcel('Parcel No. 12-4.5-118')).toBe('12-4.5-118');
  });
});
