import { describe, expect, test } from 'vitest';
import { sameAddress } from '../../core/readiness/index.ts';
import { readAddress } from '../../core/readiness/same/address.ts';
import { directionals, suffixes, units } from '../../core/readiness/same/publication-28.ts';

/**
 * Source of the pairs: USPS Publication 28 (October 2023), appendices C1 and C2, as listed in the open file
 * scourgify/address_constants.py of GreenBuildingRegistry/usaddress-scourgify. Our table was typed from memory.
 */
const pairs = `ALLEY ALY; AVENUE AVE; BEND BND; BOULEVARD BLVD; BRANCH BR; BRIDGE BRG; CAUSEWAY CSWY; CIRCLE CIR;
COURT CT; COVE CV; CREEK CRK; CROSSING XING; CROSSROAD XRD; DRIVE DR; ESTATES ESTS; EXPRESSWAY EXPY; FREEWAY FWY;
HIGHWAY HWY; HILL HL; HOLLOW HOLW; JUNCTION JCT; LANE LN; LOOP LOOP; MOUNTAIN MTN; PARKWAY PKWY; PIKE PIKE; PLACE PL;
POINT PT; RANCH RNCH; RIDGE RDG; ROAD RD; RUN RUN; SPRINGS SPGS; SQUARE SQ; STREET ST; TERRACE TER; TRACE TRCE;
TRAIL TRL; TURNPIKE TPKE; VALLEY VLY; VIEW VW; WALK WALK; WAY WAY; WELLS WLS; FALL FALL; FALLS FLS; VIADUCT VIA;
ROUTE RTE; ALLEE ALY; ALLY ALY; ALY ALY; LA LN`
  .split(';')
  .map((pair) => pair.trim().split(' '));

const unitCodes =
  'APT BLDG BSMT DEPT FL FRNT HNGR KEY LBBY LOT LOWR OFC PH PIER REAR RM SIDE SLIP SPC STOP STE TRLR UNIT UPPR'.split(
    ' ',
  );

describe('Publication 28', () => {
  test.each(pairs)('%s is abbreviated %s', (word = '', short = '') => {
    expect(suffixes.get(word)).toBe(short);
    expect(suffixes.get(short)).toBe(short);
  });

  test('has about two hundred street suffixes and eight directionals', () => {
    expect(new Set(suffixes.values()).size).toBeGreaterThan(190);
    expect([...new Set(directionals.values())].toSorted((a, b) => a.localeCompare(b))).toEqual([
      'E',
      'N',
      'NE',
      'NW',
      'S',
      'SE',
      'SW',
      'W',
    ]);
  });

  test.each(unitCodes)('has the unit %s', (code) => {
    expect(units.get(code)).toBe(code);
  });

  test('of two suffix words in a row only the second is the suffix (section 234.2)', () => {
    expect(readAddress('789 Main Avenue Drive')).toMatchObject({ number: '789', name: 'MAIN AVE', suffix: 'DR' });
  });
});

describe('one place, written in many ways', () => {
  // NENA CLDXF spells street parts out; Publication 28 abbreviates: both must meet.
  const same = [
    ['123 North Oak Ridge Road', '123 N OAK RIDGE RD'],
    ['123 N. Oak Ridge Rd.', '123 N OAK RIDGE RD'],
    ['418 HERON LN', '418 Heron Lane'],
    ['418 Heron Lane', '418  heron ln.'],
    ['12 Mill Creek Court, Apt 3', '12 MILL CRK CT APT 3'],
    ['9 Northeast Hollow Trail', '9 NE HOLW TRL'],
    ['9 North East Hollow Trail', '9 NE Hollow Trail'],
    ['77 Ridge Road South', '77 RIDGE RD S'],
    ['5 Piñon Loop', '5 PINON LOOP'],
    ['Lot 7, Heron Lane', 'LOT 7 HERON LN'],
  ] as const;

  test.each(same)('"%s" is "%s"', (a, b) => {
    expect(sameAddress(a, b)).toBe(true);
    expect(sameAddress(b, a)).toBe(true);
  });

  const different = [
    ['123 N Oak Ridge Rd', '132 N Oak Ridge Rd'],
    ['123 N Oak Ridge Rd', '123 S Oak Ridge Rd'],
    ['123 N Oak Ridge Rd', '123 N Oak Ridge Ct'],
    ['12 Mill Creek Court Apt 3', '12 Mill Creek Court Apt 4'],
    ['418 Heron Lane', '418 Kestrel Lane'],
  ] as const;

  test.each(different)('"%s" is not "%s"', (a, b) => {
    expect(sameAddress(a, b)).toBe(false);
  });

  const doubtful = [
    ['123 Oak Ridge Road', '123 N Oak Ridge Road'],
    ['418 Heron', '418 Heron Lane'],
    ['418 Herron Lane', '418 Heron Lane'],
    ['12 Mill Creek Court', '12 Mill Creek Court Apt 3'],
  ] as const;

  test.each(doubtful)('whether "%s" is "%s" is for somebody to say', (a, b) => {
    expect(sameAddress(a, b)).toBe('unknown');
  });

  test('a town and ZIP after the street line do not make another place', () => {
    expect(sameAddress('418 Heron Lane, Brindle, XX 00000', '418 HERON LN')).toBe(true);
  });
});
