import { owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { firmHead, styles } from '../kit/heads.ts';
import type { Point } from '../kit/ink.ts';

/** The treatment record that is later photographed on the tailgate. */
export async function termiteTreatment(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Termite treatment',
    day: '2026-06-16',
    faces: ['slab', 'slabBold', 'sans', 'sansBold'],
  });
  const flow = firmHead(new Flow(book, { ...styles.trade, size: 10, ink: [0.35, 0.1, 0.08] }), 'Grubb Pest Company', [
    'Licence PC-0933',
    'Shed 2, Depot Street',
    'Lower Brindle',
  ]);
  flow.para('RECORD OF SOIL TREATMENT BEFORE POURING', { bold: true, size: 15 });
  flow.fields(
    [
      [2, 'Builder', owners.both],
      [1, 'Record', 'T-26-0718'],
    ],
    { hand: true, height: 36 },
  );
  flow.fields(
    [
      [2, 'Place', place.house],
      [1, 'Parcel', place.parcel],
    ],
    { hand: true, height: 36 },
  );
  flow.fields(
    [
      [1, 'Date', 'June 16 2026'],
      [1, 'Start', '9:40'],
      [1, 'End', '11:05'],
    ],
    { hand: true, height: 36 },
  );
  flow.gap(6).table(
    [
      ['Where', 'Measure', 'Gallons', 'Strength'],
      ['Under the slab', '1860 sq ft', '186', '0.06 %'],
      ['Along footings, inside', '184 ft', '74', '0.06 %'],
      ['Around pipes', '11', '11', '0.06 %'],
    ],
    { widths: [40, 22, 18, 20], handFrom: 1, size: 11 },
  );
  flow
    .tick('First treatment, before the vapor sheet', true)
    .tick('Treated again after disturbance', false)
    .tick('Outside edge to be done after final grade', true);
  flow.para(
    'Do not disturb the treated soil. If rain falls on it before the sheet is laid, or the pour is put off, call us: it must be treated again.',
  );
  flow.signed('Barnaby Grubb', 'certified applicator 0933-2', '6-16-26');
  flow.gap(8);
  treatedEdge(flow);
  flow.para('Product label and quantities are kept by the company. (Invented company.)', { size: 7.5 });
  return book.bytes();
}

/** The slab's outline with the treated edges, drawn by hand on the form. */
function treatedEdge(flow: Flow): void {
  const { leaf, chance } = flow;
  const pen = { colour: [0.12, 0.16, 0.45] as const, width: 1.2 };
  const [x, y] = [flow.left + 60, flow.y + 24];
  leaf.box([flow.left, flow.y], [flow.width, 190], { width: 0.6 });
  leaf.text([flow.left + 4, flow.y + 10], 'Sketch of treated areas', { face: 'slab', size: 7 });
  const shaky = (points: readonly Point[]): void =>
    leaf.curve(
      points.map(([px, py]): Point => [px + chance.bell(), py + chance.bell()]),
      pen,
    );
  shaky([
    [x, y],
    [x + 150, y + 1],
    [x + 310, y],
    [x + 311, y + 70],
    [x + 310, y + 140],
    [x + 150, y + 141],
    [x, y + 140],
    [x - 1, y + 70],
    [x, y],
  ]);
  shaky([
    [x + 110, y + 140],
    [x + 111, y + 158],
    [x + 220, y + 159],
    [x + 221, y + 141],
  ]);
  for (let i = 0; i < 26; i += 1)
    shaky([
      [x + 2 + i * 12, y + 2],
      [x + 8 + i * 12, y + 10],
    ]);
  for (let i = 0; i < 26; i += 1)
    shaky([
      [x + 2 + i * 12, y + 130],
      [x + 8 + i * 12, y + 138],
    ]);
  for (const [px, py] of [
    [80, 40],
    [190, 52],
    [240, 46],
  ] as const)
    shaky([
      [x + px - 4, y + py],
      [x + px, y + py + 4],
      [x + px + 4, y + py],
      [x + px, y + py - 4],
      [x + px - 4, y + py],
    ]);
  leaf.hand([x + 90, y + 84], '62 X 30 FT SLAB', { size: 10, colour: pen.colour, chance });
  leaf.hand([x + 128, y + 154], 'PORCH', { size: 8, colour: pen.colour, chance });
  leaf.hand([x + 322, y + 78], 'N END', { size: 8, colour: pen.colour, chance });
  flow.gap(196);
}

export async function termiteFinal(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Termite certificate', day: '2027-02-11', faces: ['slab', 'slabBold'] });
  const flow = firmHead(new Flow(book, { ...styles.trade, size: 10, ink: [0.35, 0.1, 0.08] }), 'Grubb Pest Company', [
    'Licence PC-0933',
    'Shed 2, Depot Street',
    'Lower Brindle',
  ]);
  flow.para('Final Certificate of Termite Treatment', { bold: true, size: 15 });
  flow.pairs([
    ['Place', `${place.house}, Parcel ${place.parcel}`],
    ['Owners', owners.both],
    ['First treatment', 'June 16, 2026, record T-26-0718'],
    ['Outside edge treated', 'February 11, 2027, after final grade'],
    ['Certificate', 'T-27-0094'],
    ['Good through', 'February 11, 2028, then yearly look'],
  ]);
  flow
    .para('The building was treated for subterranean termites as recorded. The treatment is complete.')
    .signed('Barnaby Grubb', 'certified applicator 0933-2', '2-11-27');
  return book.bytes();
}
