import type { BlankField, BlankForm, BoxReading } from '../../core/forms/form-model.ts';
import { readBoxes } from '../../core/forms/read-boxes.ts';
import { loadFonts } from '../../core/packet/sheets/fonts.ts';
import { readPractice } from '../../core/practice/index.ts';
import { indexLot } from '../../core/readiness/index.ts';
import type { LotView } from '../../core/vocabulary/lot.ts';
import { smallCounty } from '../practice/small-county.ts';
import { d, edition, lot, paper } from '../readiness/making.ts';

/** The faces our sheets are set in: what fits is measured with them. */
export const fonts = await loadFonts();

export const heron: LotView = lot({
  identities: [
    { sort: 'owner', text: 'Hạnh Nguyễn Lindqvist and Tomás Lindqvist' },
    { sort: 'owner', text: 'HANH NGUYEN LINDQVIST AND TOMAS LINDQVIST' },
    { sort: 'place', text: 'Lot 7, Heron Lane', to: d('2025-06-02') },
    { sort: 'place', text: '418 Heron Lane', from: d('2025-06-03') },
    { sort: 'parcel', text: '041-22-0070' },
  ],
  sameAs: [
    {
      sort: 'owner',
      a: 'Hạnh Nguyễn Lindqvist and Tomás Lindqvist',
      b: 'HANH NGUYEN LINDQVIST AND TOMAS LINDQVIST',
    },
  ],
  answers: {
    sewage: { sort: 'choice', value: 'septic' },
    lender: { sort: 'yes or no', value: true },
    floor_area: { sort: 'area', value: 1860 },
    cost: { sort: "don't know yet" },
  },
  subjects: [
    { id: 'a', sort: 'engagement', title: 'Old Drains', firm: 'Old Drains', trade: 'drains', to: d('2026-01-31') },
    { id: 'b', sort: 'engagement', title: 'Quill Framing', firm: 'Quill Framing', from: d('2026-07-06') },
    { id: 'c', sort: 'engagement', title: 'Wren Electric', firm: 'Wren Electric', from: d('2026-05-18') },
  ],
  papers: [
    paper('septic-permit', [
      edition('s', { number: 'EH-24-0317', issued: d('2024-10-28'), facts: { bedrooms: { sort: 'count', value: 3 } } }),
    ]),
  ],
});

export function field(name: string, extra: Partial<BlankField> = {}): BlankField {
  const place = { page: 0, rect: { x: 50, y: 700, width: 200, height: 20 }, width: 200, height: 20, border: 0 };
  return {
    name,
    sort: 'text',
    required: false,
    readOnly: false,
    multiline: false,
    comb: false,
    ownWords: false,
    size: 10,
    align: 'left',
    options: [],
    worked: false,
    places: [place],
    ...extra,
  };
}

export function sized(width: number, height: number): Pick<BlankField, 'places'> {
  return { places: [{ page: 0, rect: { x: 0, y: 0, width, height }, width, height, border: 0 }] };
}

/** Reads one form whose boxes are written as in a mapping. */
export function read(boxes: string, fields: readonly BlankField[], extra = ''): readonly BoxReading[] {
  return whole(boxes, fields, extra).boxes;
}

export function whole(boxes: string, fields: readonly BlankField[], extra = '', given = heron) {
  const text = `forms:\n  application:\n    title: Application\n    boxes: { ${boxes} }\n${extra}`;
  const practice = readPractice([
    { name: 'small.yaml', text: smallCounty },
    { name: 'forms.yaml', text },
  ]);
  const form = practice.forms?.application;
  if (form === undefined) throw new Error('no form');
  const blank: BlankForm = { fields, pages: 1, xfa: 'none', sealed: false };
  const at = indexLot({ practice, lot: given, day: d('2026-04-14') });
  return { ...readBoxes({ at, subject: undefined, form, blank, fonts }), form, blank, at };
}
