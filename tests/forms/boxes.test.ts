import { describe, expect, it } from 'vitest';
import type { BlankField } from '../../core/forms/form-model.ts';
import { personsOf } from '../../core/forms/owners.ts';
import { lot } from '../readiness/making.ts';

import { field, heron, read, sized, whole } from './box-kit.ts';

describe('a box is filled from what the lot knows', () => {
  it('owners stand exactly as printed, together or each by themselves', () => {
    const boxes = read('all: owner, one: owner 1, two: owner 2, three: owner 3', [
      field('all'),
      field('one'),
      field('two'),
      field('three'),
    ]);
    expect(boxes.map(({ state, value }) => [state, value])).toEqual([
      ['filled', 'Hạnh Nguyễn Lindqvist and Tomás Lindqvist'],
      ['filled', 'Hạnh Nguyễn Lindqvist'],
      ['filled', 'Tomás Lindqvist'],
      ['empty', undefined],
    ]);
  });

  it.each([
    ['A. Roe and B. Roe', ['A. Roe', 'B. Roe']],
    ['A. Roe & B. Roe', ['A. Roe', 'B. Roe']],
    ['Sandy Brand', ['Sandy Brand']],
    ['The Roe Family Trust', undefined],
    ['John and Mary Roe', undefined],
    ['J. & M. Roe', undefined],
    ['J. R. & Mary Roe', undefined],
    ['Oak and Pine Corporation', undefined],
    ['Harte & Sons', undefined],
    ['Rowan Land and Timber Incorporated', undefined],
    ['Old Hill L.L.C.', undefined],
    ['New Hope Church and School', undefined],
    ['A. Roe and wife', undefined],
    ['A. Roe et ux', undefined],
    ['Roe', undefined],
    ['A. Roe, a single woman', undefined],
  ])('"%s" is taken apart only where that is sure', (line, persons) => {
    expect(personsOf(line)).toEqual(persons);
  });

  it('the place is the one of the day, with where it comes from', () => {
    const [box] = read('where: place', [field('where', { hint: 'Address of the work' })]);
    expect(box).toMatchObject({ title: 'Address of the work', value: '418 Heron Lane', from: 'the place, as printed' });
  });

  it('answers, papers’ facts and numbers are written as the mapping says', () => {
    const boxes = read(
      'area: lot.floor_area, plain: { is: lot.floor_area, as: digits }, no: septic-permit.number, on: { is: septic-permit.issued, as: in words }, rooms: septic-permit.bedrooms, both: { is: [parcel, place], between: " / " }',
      ['area', 'plain', 'no', 'on', 'rooms', 'both'].map((name) => field(name)),
    );
    expect(boxes.map(({ value }) => value)).toEqual([
      '1,860',
      '1860',
      'EH-24-0317',
      'October 28, 2024',
      '3',
      '041-22-0070 / 418 Heron Lane',
    ]);
  });

  it('ticks, radios and choices take the form’s own words', () => {
    const options = [
      { value: '0', label: 'On-site' },
      { value: '1', label: 'Public' },
    ];
    const boxes = read(
      'borrowing: lot.lender, septic: { when: { sewage: septic } }, sewer: { when: { sewage: sewer } }, way: { is: lot.sewage, words: { septic: On-site } }, list: { is: lot.sewage, words: { septic: on-site } }',
      [
        field('borrowing', { sort: 'tick box', options: [{ value: 'Ja', label: 'Ja' }] }),
        field('septic', { sort: 'tick box', options: [{ value: 'Yes', label: 'Yes' }] }),
        field('sewer', { sort: 'tick box', options: [{ value: 'Yes', label: 'Yes' }] }),
        field('way', { sort: 'radio', options }),
        field('list', { sort: 'choice', options }),
      ],
    );
    expect(boxes.map(({ write }) => write)).toEqual([
      { field: 'borrowing', write: 'state', state: 'Ja' },
      { field: 'septic', write: 'state', state: 'Yes' },
      { field: 'sewer', write: 'state', state: 'Off' },
      { field: 'way', write: 'state', state: '0' },
      { field: 'list', write: 'choice', value: '0', text: 'On-site' },
    ]);
  });

  const squares = (...labels: readonly string[]): Partial<BlankField> => ({
    sort: 'tick box',
    options: labels.map((label) => ({ value: label, label })),
    places: labels.map((on, n) => ({
      page: 0,
      rect: { x: 60 + 40 * n, y: 300, width: 12, height: 12 },
      width: 12,
      height: 12,
      border: 1,
      on,
    })),
  });

  it.each<[labels: readonly string[], boxes: string, state: string | undefined, value: string]>([
    [['No', 'Yes'], 'b: { when: { lender: yes } }', 'Yes', 'Yes'],
    [['No', 'Yes'], 'b: { when: { lender: no } }', 'No', 'No'],
    [['No', 'Yes'], 'b: lot.lender', 'Yes', 'Yes'],
    [['N', 'Y'], 'b: lot.lender', 'Y', 'Y'],
    [['Granted', 'Denied'], 'b: { is: lot.lender, words: { yes: Granted } }', 'Granted', 'Granted'],
    [['No'], 'b: lot.lender', 'Off', 'not ticked'],
    [['Off-site', 'Septic'], 'b: { is: lot.sewage, words: { septic: Septic } }', 'Septic', 'Septic'],
  ])('of squares %j of one name, "%s" marks the one that says so', (labels, boxes, state, value) => {
    const [box] = read(boxes, [field('b', squares(...labels))]);
    expect(box).toMatchObject({ state: 'filled', value, write: { state } });
    if (state !== 'Off') expect(box?.place?.on).toBe(state);
  });

  it.each<[labels: readonly string[], boxes: string, said: string]>([
    [['Denied', 'Granted'], 'b: lot.lender', 'yes'],
    [['Denied', 'Granted'], 'b: { when: { lender: no } }', 'no'],
    [['No', 'Perhaps'], 'b: { when: { lender: yes } }', 'yes'],
    [['Well', 'Public'], 'b: lot.sewage', 'septic'],
  ])('of squares %j none is guessed for "%s"', (labels, boxes, said) => {
    const [box] = read(boxes, [field('b', { ...squares(...labels), sort: 'tick box' })]);
    const choices = labels.map((label) => `"${label}"`).join(', ');
    expect(box).toMatchObject({ state: 'not among the choices' });
    expect(box?.say).toBe(`"${said}" is not among the choices of this box: ${choices}.`);
    expect(box?.write).toBeUndefined();
  });

  it('a state that only counts the squares is no answer', () => {
    const options = ['One', 'Two', 'Three', 'Four'].map((label, n) => ({ value: String(n), label }));
    const [box] = read('b: septic-permit.bedrooms', [field('b', { sort: 'radio', options })]);
    expect(box?.state).toBe('not among the choices');
  });

  it('firms still on site stand row by row, and those the form has no room for are told', () => {
    const rows = `    rows:
      firms: { each: engagement, room: 1, boxes: { "firm_{n}": firm, "from_{n}": firm.from } }
`;
    const { boxes, notes } = whole('', [field('firm_1'), field('from_1')], rows);
    expect(boxes.map(({ value }) => value)).toEqual(['Quill Framing', '7/6/2026']);
    expect(notes).toEqual(['The form has room for 1 firms, and 2 are noted: add Wren Electric on a sheet of its own.']);
  });
});

describe('what can’t be filled is told, and nothing is cut off', () => {
  it.each<[string, string, BlankField, string, string]>([
    ['an unanswered question', 'b: lot.cost', field('b'), 'missing', 'Not answered yet: How much?'],
    ['a paper that isn’t there', 'b: deed.owner', field('b'), 'missing', '"Deed" is not in the lot.'],
    [
      'more letters than the box takes',
      'b: parcel',
      field('b', { longest: 9 }),
      'too long',
      'has 11 letters, and this box takes 9',
    ],
    ['words wider than the box', 'b: owner', field('b', sized(60, 12)), 'too long', "doesn't fit this box"],
    [
      'a choice the form doesn’t have',
      'b: lot.sewage',
      field('b', { sort: 'choice', options: [{ value: 'x', label: 'Other' }] }),
      'not among the choices',
      '"septic" is not among the choices of this box: "Other".',
    ],
    [
      'words where a script wants a number',
      'b: parcel',
      field('b', { wants: 'number' }),
      'wrong sort',
      'This box takes a number',
    ],
    [
      'words where a script wants a date',
      'b: place',
      field('b', { wants: 'date' }),
      'wrong sort',
      'This box takes a date',
    ],
    [
      'a day printed as money',
      'b: { is: septic-permit.issued, as: no sign }',
      field('b'),
      'wrong sort',
      'is a day: it can\'t be printed as "no sign"',
    ],
    [
      'words in a box to tick',
      'b: place',
      field('b', { sort: 'tick box', options: [{ value: 'Yes', label: 'Yes' }] }),
      'wrong sort',
      'neither yes nor no',
    ],
    [
      'a choice wider than its box',
      'b: { is: lot.sewage, words: { septic: On-site disposal } }',
      field('b', { sort: 'choice', options: [{ value: 'x', label: 'On-site disposal' }], ...sized(30, 14) }),
      'too long',
      "doesn't fit this box",
    ],
    [
      'words of one’s own in a list, with letters no font has',
      'b: { is: lot.sewage, words: { septic: 漢 } }',
      field('b', { sort: 'choice', ownWords: true }),
      'no such letters',
      'write this box by hand',
    ],
    ['a box the form no longer has', 'b: place', field('c'), 'not on the form', 'this blank has none of that name'],
    [
      'a signature field whatever it is called',
      'b: place',
      field('b', { sort: 'signature' }),
      'by hand',
      'never filled here',
    ],
    [
      'a box whose hint asks for a signature',
      'b: place',
      field('b', { hint: 'Date signed by owner' }),
      'by hand',
      'never filled here',
    ],
    ['a box that the form keeps shut', 'b: place', field('b', { readOnly: true }), 'left', 'keeps this box shut'],
  ])('%s', (_name, boxes, blank, state, say) => {
    const box = read(boxes, [blank]).find((one) => one.field === 'b');
    expect(box?.state).toBe(state);
    expect(box?.say).toContain(say);
    expect(box?.write).toBeUndefined();
  });

  it('a day beside a signature is for the same hand, another day is not', () => {
    const line = (y: number, x: number) => ({
      places: [{ page: 0, rect: { x, y, width: 100, height: 20 }, width: 100, height: 20, border: 0 }],
    });
    const boxes = read('Date_2: septic-permit.issued, permit_date: septic-permit.issued', [
      field('Date_2', line(100, 300)),
      field('owner_sig', { sort: 'signature', ...line(104, 60) }),
      field('permit_date', line(400, 300)),
    ]);
    expect(boxes.map(({ field: name, state }) => [name, state])).toEqual([
      ['permit_date', 'filled'],
      ['owner_sig', 'by hand'],
      ['Date_2', 'by hand'],
    ]);
  });

  it('days beside a notary’s commission or a signature run together stay with that hand, whole or in parts', () => {
    const line = (y: number, x: number) => ({
      places: [{ page: 0, rect: { x, y, width: 100, height: 20 }, width: 100, height: 20, border: 0 }],
    });
    const days = ['issued_date', 'OWNERDATE', 'Month_3', 'begun'];
    const boxes = read(days.map((name) => `${name}: septic-permit.issued`).join(', '), [
      field('commission_expires', line(100, 60)),
      field('issued_date', line(104, 300)),
      field('applicantsignature', line(200, 60)),
      field('OWNERDATE', line(196, 300)),
      field('Month_3', { sort: 'choice', ...line(200, 420) }),
      field('begun', line(400, 300)),
    ]);
    expect(boxes.map(({ field: name, state }) => [name, state])).toEqual([
      ['begun', 'filled'],
      ['applicantsignature', 'by hand'],
      ['OWNERDATE', 'by hand'],
      ['Month_3', 'by hand'],
      ['commission_expires', 'by hand'],
      ['issued_date', 'by hand'],
    ]);
  });

  it('letters no font here has are told, not printed as squares', () => {
    const given = lot({ identities: [{ sort: 'owner', text: '田中' }] });
    expect(whole('b: owner', [field('b')], '', given).boxes[0]).toMatchObject({ state: 'no such letters' });
  });

  it('a box that nobody mapped is listed, and a missing value says where it is entered', () => {
    const boxes = read('b: lot.cost', [field('b'), field('extra')]);
    expect(boxes.map(({ field: name, state, seat }) => [name, state, seat])).toEqual([
      ['b', 'missing', { at: 'question', question: 'cost' }],
      ['extra', 'unmapped', undefined],
    ]);
  });

  it('of a tick that rests on several answers the one that is missing is named', () => {
    const given = { ...heron, answers: { lender: { sort: 'yes or no', value: true } } as const };
    const square = field('b', { sort: 'tick box', options: [{ value: 'Yes', label: 'Yes' }] });
    const [box] = whole('b: { when: { lender: yes, sewage: septic } }', [square], '', given).boxes;
    expect(box).toMatchObject({
      state: 'missing',
      say: 'Not known yet: your answer to "Where to?".',
      seat: { at: 'question', question: 'sewage' },
    });
  });

  it('a value a little too wide is set smaller, and that is told', () => {
    const [box] = read('b: owner', [field('b', { ...sized(170, 14), size: 10 })]);
    expect(box).toMatchObject({ state: 'filled' });
    expect(box?.say).toMatch(/^Set smaller than the form says, in [678](\.\d+)? points/);
  });
});
