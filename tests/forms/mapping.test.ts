import { describe, expect, it } from 'vitest';
import { checkPractice, readPractice } from '../../core/practice/index.ts';
import { neverByUs } from '../../core/vocabulary/by-hand.ts';
import { smallCounty } from '../practice/small-county.ts';

const forms = `forms:
  application:
    title: Application
    office: desk
    known_by: [owner_1]
    boxes:
      owner_1: owner 1
      heated: { is: lot.floor_area, as: digits, fact: floor_area }
      sewage: { is: lot.sewage, words: { septic: On-site } }
      big_house: { when: big }
      septic: septic-permit.number
      begun: { is: event.begun, optional: yes }
      both: { is: [owner, place], between: " / " }
      phone_of_desk: office.desk.phone
      county: { say: Small county }
      owner_signature: by hand
      office_use: { leave: for the office }
    rows:
      firms:
        each: engagement
        room: 2
        boxes: { "firm_{n}": firm, "from_{n}": { is: firm.from, as: mm/dd/yyyy } }
`;

const layers = (text: string) => [
  { name: 'small.yaml', text: smallCounty },
  { name: 'forms.yaml', text },
];

function told(instead: string, write: string): readonly string[] {
  expect(forms).toContain(instead);
  const { problems } = checkPractice(layers(forms.replace(instead, write)));
  return problems.map(({ layer, line, sentence }) => `${layer}:${line}: ${sentence}`);
}

describe('the mapping of a form', () => {
  it('is read into boxes, rows and what gives the blank away', () => {
    const form = readPractice(layers(forms)).forms?.application;
    expect(form?.boxes.map(({ do: what, field }) => `${what} ${field}`)).toEqual([
      'write owner_1',
      'write heated',
      'write sewage',
      'tick big_house',
      'write septic',
      'write begun',
      'write both',
      'write phone_of_desk',
      'write county',
      'by hand owner_signature',
      'leave office_use',
    ]);
    expect(form?.rows).toMatchObject([{ id: 'firms', room: 2, boxes: [{ field: 'firm_{n}' }, { field: 'from_{n}' }] }]);
    expect(form).toMatchObject({ knownBy: ['owner_1'], flatten: false, wordedByLaw: false, office: 'desk' });
  });

  it('is amended by id like any other rule, and the amendment’s word stands on it', () => {
    const county = `basis: { told by: R. Amsel, on: 2026-04-02 }
forms:
  application: { flatten: yes, boxes: { owner_1: owner, office_use: drop } }
`;
    const form = readPractice([...layers(forms), { name: 'county.yaml', text: county }]).forms?.application;
    expect(form?.flatten).toBe(true);
    expect(form?.boxes[0]).toMatchObject({ field: 'owner_1', sources: [{ of: 'owner' }] });
    expect(form?.boxes.some(({ field }) => field === 'office_use')).toBe(false);
    expect(form?.basis).toMatchObject({ on: 'the office told us', who: 'R. Amsel' });
  });

  it('leaves practices without forms as they were', () => {
    expect(readPractice([{ name: 'small.yaml', text: smallCounty }])).not.toHaveProperty('forms');
  });

  it.each([
    ['a source that is nothing', 'owner_1: owner 1', 'owner_1: owners', '"owners" is nothing a box can be filled from'],
    [
      'a question that is nowhere',
      'lot.sewage',
      'lot.sewerage',
      'There is no question "sewerage"; did you mean "sewage"?',
    ],
    ['a fact no such paper carries', 'septic-permit.number', 'septic-permit.bedroms', 'did you mean "bedrooms"?'],
    ['an office detail', 'office.desk.phone', 'office.desk.fax', 'An office has no "fax"'],
    ['an unknown printing', 'as: digits', 'as: digit', 'did you mean "digits"?'],
    ['a row without a number', '"firm_{n}"', 'firm_1', 'has no {n} in its name'],
    [
      'a box that says nothing',
      '{ say: Small county }',
      '{ optional: yes }',
      'says neither "is", "say", "when" nor "leave"',
    ],
  ])('%s is told with line and sentence', (_name, instead, write, sentence) => {
    const found = told(instead, write);
    expect(found.join('\n')).toContain(sentence);
    expect(found[0]).toMatch(/^forms\.yaml:\d+: /);
  });

  it.each(['owner_signature', 'OwnerInitials', 'notary_name', 'dateSigned', 'sworn_on', 'witness 1'])(
    'never fills "%s": it is somebody’s own hand',
    (name) => {
      expect(told('owner_1: owner 1', `${JSON.stringify(name)}: owner 1`).join('\n')).toContain('it is never filled');
    },
  );

  // Words run together, capitals of an office's own, and other words for the same: each was filled once.
  it.each([
    ...['applicantsignature', 'OWNERSIGNATURE', 'DLSignature', 'txtSignature', 'SIGnature', 'owner_sign1', 'ownersig'],
    ...['Date of signing', 'datesigned', 'SIGNDATE', 'CPOInitials', 'OWNERINITIALS', 'initials_3'],
    ...['AttestedBy', 'Attest', 'commission_expires', 'MyCommissionExpires', 'mycommissionexpires', 'NOTARYNAME'],
    ...['notarized', 'affiantname', 'jurat2', 'swornbefore', 'WITNESSNAME', 'sig\u00adnature'],
  ])('sees whose hand "%s" is for', (name) => {
    expect(neverByUs(name)).toBeDefined();
  });

  it.each([
    ...['design_of', 'Designed by', 'assigned_number', 'DESIGNDATE', 'resigned', 'signal', 'printed_name', 'insignia'],
    ...['not_a_rental', 'planning commission case', 'CommissioningDate', 'commissioner', 'latest', 'perc_rate_at_test'],
    ...['initialized', 'subscriber', 'LotSize', 'HVACDesigner'],
  ])('takes "%s" for no signature', (name) => {
    expect(neverByUs(name)).toBeUndefined();
  });

  it('takes a name that only looks like a signature by its whole words', () => {
    expect(told('owner_1: owner 1', 'design_of: owner 1')).toEqual([]);
    expect(told('owner_1: owner 1', 'sign_permit: { leave: by the sign office }')).toEqual([]);
  });

  it('ticks and words nothing on a form that a law words', () => {
    const found = told('title: Application', 'title: Application\n    worded_by_law: yes').join('\n');
    expect(found).toContain('box "big_house" of form "application": on a form worded by law nothing is ticked');
    expect(found).toContain('box "county" of form "application": on a form worded by law');
    expect(found).not.toContain('"owner_1"');
  });

  it('is named by a need as forms/application', () => {
    const text = smallCounty.replace('{copies: 2}', '{copies: 2, fill: application.yaml}');
    expect(text).not.toBe(smallCounty);
    const { problems } = checkPractice([{ name: 'small.yaml', text }]);
    expect(problems[0]?.sentence).toContain('is written as "forms/application", not "application.yaml"');
  });
});
