import {
  PDFBool,
  PDFDropdown,
  type PDFField,
  type PDFForm,
  PDFHexString,
  PDFName,
  PDFTextField,
  TextAlignment,
} from 'pdf-lib';
import { county, firms, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { foldFor } from '../kit/faces.ts';
import { Flow } from '../kit/flow.ts';
import { formHead, styles } from '../kit/heads.ts';
import { scan } from '../kit/picture.ts';

/** The application's fields: share of the row, caption, field name, value as filled in. */
type Field = readonly [number, string, string, string];

/** Points; the boxes keep their place within it. */
const rowHeight = 30;

const rows: readonly (readonly Field[])[] = [
  [
    [3, 'Owner 1', 'owner_1', owners.first],
    [3, 'Owner 2', 'owner_2', owners.second],
  ],
  [
    [4, 'Mailing address', 'mail', '77 Cooper Street, Lower Brindle'],
    [2, 'Telephone', 'phone', 'on file'],
  ],
  [
    [4, 'Address of the work', 'place', place.house],
    [2, 'Parcel', 'parcel', place.parcel],
  ],
  [
    [2, 'Lot or plat', 'lot', place.lot],
    [2, 'Acres', 'acres', place.acres],
    [2, 'Flood zone', 'flood_zone', 'X'],
  ],
  [[6, 'Describe the work', 'work', 'New one-story dwelling, slab on grade, front porch']],
  [
    [2, 'Heated area, sq ft', 'heated', '1,860'],
    [2, 'Porch, sq ft', 'porch', '176'],
    [1, 'Bedrooms', 'bedrooms', '3'],
    [1, 'Baths', 'baths', '2'],
  ],
  [
    [2, 'Value of the work', 'value', '$398,400'],
    [2, 'Septic permit', 'septic', 'EH-24-0317'],
    [2, 'Well permit', 'well', 'WP-25-0102'],
  ],
  [
    [3, 'Plans by', 'plans_by', 'Ostrey Drafting'],
    [3, 'Lender', 'lender', 'Saltgrass Savings Bank'],
  ],
];

const boxes: readonly (readonly [string, string, boolean])[] = [
  ['The owner builds (owner-builder statement attached)', 'owner_builds', true],
  ['A contractor builds (name and licence attached)', 'contractor_builds', false],
  ['Land lies in a mapped flood area', 'flood', false],
  ['Trusses or other parts made elsewhere', 'trusses', true],
  ['Gas will be used in the house', 'gas', false],
];

/** What the county's machine takes. */
const longestOf: Readonly<Record<string, number>> = { phone: 14, bedrooms: 2, baths: 3, septic: 12, well: 12 };

export type ApplicationLook = 'blank' | 'no looks';

/** Firms on the job, as the application lists them; the form has room for three. */
const listed = [firms.framing, firms.electrical, firms.plumbing] as const;
const roads = ['County', 'State', 'Private'] as const;
const wastes = [
  ['On-site (septic)', 'septic'],
  ['Public sewer', 'sewer'],
] as const;
const digits = place.parcel.replace(/\D/g, '');

/** The county's application as a form that can be filled in. "no looks" leaves it to the reader to draw the values. */
export async function application(look: ApplicationLook): Promise<Uint8Array> {
  const filled = look !== 'blank';
  const book = await Book.open({
    title: `Building permit application (${look})`,
    day: filled ? '2026-04-08' : '2025-12-01',
    faces: ['sans', 'sansBold', 'human'],
  });
  const form = book.doc.getForm();
  const flow = applicationHead(book);
  for (const row of rows) fieldRow(flow, form, { row, filled });
  lowerRows(flow, false);
  lowerBoxes(flow, form, filled);
  flow.gap(6);
  for (const [text, name, on] of boxes) {
    const field = form.createCheckBox(name);
    hint(field, text);
    const y = flow.leaf.height - flow.y - 12.6;
    flow.tick(text, false);
    field.addToPage(flow.leaf.page, { x: flow.left + 1, y: y + 1, width: 7, height: 7, borderWidth: 0 });
    for (const widget of field.acroField.getWidgets())
      widget.getOrCreateAppearanceCharacteristics().setCaptions({ normal: '4' });
    if (on && filled) field.check();
  }
  applicationFoot(flow, false);
  const font = book.faces.human;
  if (font !== undefined && !filled) form.updateFieldAppearances(font);
  if (filled) withoutLooks(form);
  return book.bytes();
}

/** What a reader shows beside a box, and reads aloud. */
function hint(field: PDFField, words: string): void {
  field.acroField.dict.set(PDFName.of('TU'), PDFHexString.fromText(words));
}

function withoutLooks(form: PDFForm): void {
  for (const field of form.getFields())
    for (const widget of field.acroField.getWidgets())
      if (field instanceof PDFTextField || field instanceof PDFDropdown) widget.dict.delete(PDFName.of('AP'));
  form.acroForm.dict.set(PDFName.of('NeedAppearances'), PDFBool.True);
}

const lowHeight = 28;
const firmHeight = 25;

/** What is printed of the lower part: where the waste water goes, the road, the parcel in cells, the firms. */
function lowerRows(flow: Flow, printed: boolean): void {
  const top = flow.y;
  flow.fields(
    [
      [5, 'Waste water goes to', ''],
      [3, 'The road is', printed ? roads[0] : ''],
      [4, 'Parcel, figures only', ''],
    ],
    { height: lowHeight },
  );
  const share = flow.width / 12;
  for (const [n, [words]] of wastes.entries()) {
    const x = flow.left + 8 + n * 100;
    flow.leaf.circle([x + 4, top + 19], 4, { width: 0.7 });
    flow.leaf.text([x + 12, top + 22], words, { size: 8 });
  }
  const cells = { left: flow.left + 8 * share + 6, width: 4 * share - 12 };
  for (let n = 0; n <= digits.length; n += 1) {
    const x = cells.left + (cells.width * n) / digits.length;
    flow.leaf.line([x, top + 12], [x, top + 26], { width: 0.4 });
  }
  flow.leaf.line([cells.left, top + 26], [cells.left + cells.width, top + 26], { width: 0.4 });
  for (const firm of listed) {
    flow.fields(
      [
        [5, 'Firm', printed ? firm.name : ''],
        [4, 'Trade', printed ? firm.trade : ''],
        [3, 'Licence', printed ? firm.licence : ''],
      ],
      { height: firmHeight },
    );
  }
}

/** The boxes of the lower part, over what is printed. */
function lowerBoxes(flow: Flow, form: PDFForm, filled: boolean): void {
  const share = flow.width / 12;
  const top = flow.y - lowHeight - firmHeight * listed.length;
  const at = (y: number): number => flow.leaf.height - top - y;
  const { page } = flow.leaf;
  const waste = form.createRadioGroup('sewage');
  hint(waste, 'Waste water goes to');
  for (const [n, [, value]] of wastes.entries())
    waste.addOptionToPage(value, page, { x: flow.left + 8 + n * 100, y: at(23), width: 8, height: 8, borderWidth: 0 });
  const road = form.createDropdown('road');
  hint(road, 'The road is');
  road.setOptions([...roads]);
  road.addToPage(page, { x: flow.left + 5 * share + 4, y: at(27), width: 3 * share - 8, height: 16, borderWidth: 0 });
  road.setFontSize(10);
  const parcel = form.createTextField('parcel_figures');
  hint(parcel, 'Parcel, figures only');
  parcel.setMaxLength(digits.length);
  parcel.enableCombing();
  parcel.addToPage(page, {
    x: flow.left + 8 * share + 6,
    y: at(26),
    width: 4 * share - 12,
    height: 13,
    borderWidth: 0,
  });
  parcel.setFontSize(10);
  // The cells are printed on the sheet: nothing may lie over them.
  for (const widget of parcel.acroField.getWidgets())
    widget.getAppearanceCharacteristics()?.dict.delete(PDFName.of('BG'));
  for (const [n, firm] of listed.entries()) {
    const cells = [
      [`firm_${n + 1}`, `Firm ${n + 1}`, firm.name, 0, 5],
      [`trade_${n + 1}`, `Trade of firm ${n + 1}`, firm.trade, 5, 4],
      [`licence_${n + 1}`, `Licence of firm ${n + 1}`, firm.licence, 9, 3],
    ] as const;
    for (const [name, words, value, from, wide] of cells) {
      const field = form.createTextField(name);
      hint(field, words);
      field.setAlignment(TextAlignment.Left);
      const y = at(lowHeight + firmHeight * (n + 1) - 1);
      field.addToPage(page, {
        x: flow.left + from * share + 3,
        y,
        width: wide * share - 6,
        height: 14,
        borderWidth: 0,
      });
      field.setFontSize(9);
      if (filled) field.setText(foldFor('sans', value));
    }
  }
  if (!filled) return;
  waste.select('septic');
  road.select(roads[0]);
  parcel.setText(digits);
}

function applicationHead(book: Book): Flow {
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Building Department   12 Courthouse Lane, Lower Brindle`,
    title: 'Application to Build a Dwelling',
    number: 'Form BD 7',
  });
  flow
    .para('Print or type. Bring the sets of plans and the papers on the list. Both owners sign before a notary.', {
      size: 8.5,
    })
    .gap(2);
  return flow;
}

function fieldRow(flow: Flow, form: PDFForm, look: { row: readonly Field[]; filled: boolean }): void {
  const total = look.row.reduce((sum, [share]) => sum + share, 0);
  const top = flow.y;
  let x = flow.left;
  flow.fields(
    look.row.map(([share, caption]) => [share, caption, '']),
    { height: rowHeight },
  );
  for (const [share, caption, name, value] of look.row) {
    const w = (flow.width * share) / total;
    const field = form.createTextField(name);
    hint(field, caption);
    field.setAlignment(TextAlignment.Left);
    const font = look.filled ? flow.book.faces.sans : flow.book.faces.human;
    field.addToPage(flow.leaf.page, {
      x: x + 3,
      y: flow.leaf.height - top - 28.5,
      width: w - 6,
      height: 19,
      borderWidth: 0,
      ...(font === undefined ? {} : { font }),
    });
    field.setFontSize(10.5);
    const longest = longestOf[name];
    if (longest !== undefined) field.setMaxLength(longest);
    if (look.filled) field.setText(foldFor('sans', value));
    x += w;
  }
}

export function applicationFoot(flow: Flow, signed: boolean): void {
  flow.gap(2).heading('Signatures');
  flow.para('We own this land. What stands above is true. We let the county enter to inspect.', { size: 9 });
  if (signed) flow.signed(owners.first, 'owner', '4-13-26').signed(owners.second, 'owner', '4-13-26');
  else {
    for (const who of ['Owner 1', 'Owner 2']) {
      flow.gap(26).leaf.line([flow.left, flow.y], [flow.left + 300, flow.y], { width: 0.6 });
      flow.leaf.text([flow.left, flow.y + 10], `${who}, signature`, { size: 7.5 });
      flow.leaf.text([flow.left + 240, flow.y + 10], 'date', { size: 7.5 });
    }
    flow.gap(16);
  }
  flow.gap(6);
  flow.leaf.box([flow.left, flow.y], [flow.width, 72], { width: 0.7 });
  flow.leaf.text([flow.left + 8, flow.y + 14], 'Signed and sworn before me by the owners named above on', { size: 9 });
  flow.leaf.line([flow.left + 270, flow.y + 16], [flow.left + 400, flow.y + 16], { width: 0.5 });
  flow.leaf.text([flow.left + 8, flow.y + 62], 'Notary', { size: 7.5 });
  if (signed) {
    flow.leaf.hand([flow.left + 276, flow.y + 13], 'April 13 2026', {
      size: 9,
      colour: [0.1, 0.13, 0.42],
      chance: flow.chance,
    });
    flow.leaf.signature([flow.left + 46, flow.y + 58], flow.chance, { length: 120 });
    flow.rubber([flow.left + 300, flow.y + 26], ['PERPETUA VOSS', 'NOTARY (SAMPLE)', 'to 11-30-2026'], {
      angle: 3,
      size: 8,
    });
  }
}

/** The same form printed, signed by both owners before a notary, and scanned. */
export async function applicationSigned(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Application signed',
    day: '2026-04-13',
    faces: ['sans', 'sansBold', 'human'],
  });
  const flow = applicationHead(book);
  for (const row of rows)
    flow.fields(
      row.map(([share, caption, , value]) => [share, caption, value]),
      { height: rowHeight },
    );
  const top = flow.y;
  lowerRows(flow, true);
  flow.leaf.circle([flow.left + 12, top + 19], 1.8, { width: 3 });
  const share = flow.width / 12;
  const cell = (4 * share - 12) / digits.length;
  for (const [n, digit] of [...digits].entries())
    flow.leaf.text([flow.left + 8 * share + 6 + cell * (n + 0.5), top + 23], digit, { size: 10, align: 'centre' });
  flow.gap(6);
  for (const [text, , on] of boxes) flow.tick(text, on);
  applicationFoot(flow, true);
  return scan(await book.bytes(), { seed: 'application', title: 'scan0031', day: '2026-04-13' });
}
