import { place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { styles } from '../kit/heads.ts';
import type { Point } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { View } from '../kit/view.ts';
import type { MadeFrom } from './trades.ts';

interface Truss {
  readonly mark: string;
  readonly name: string;
  readonly span: number;
  readonly pitch: number;
  readonly count: number;
  /** Panel points along the bottom and the top chord, as shares of the span. */
  readonly bottom: readonly number[];
  readonly top: readonly number[];
  readonly scissor?: number;
}

const trusses: readonly Truss[] = [
  { mark: 'T1', name: 'Gable end, studs at 24 in.', span: 30, pitch: 6, count: 2, bottom: [], top: [] },
  { mark: 'T2', name: 'Common', span: 30, pitch: 6, count: 18, bottom: [0.333, 0.667], top: [0.25, 0.75] },
  {
    mark: 'T3',
    name: 'Vaulted over the great room',
    span: 30,
    pitch: 6,
    count: 12,
    bottom: [0.25, 0.5, 0.75],
    top: [0.25, 0.75],
    scissor: 2.5,
  },
  { mark: 'T4', name: 'Porch mono', span: 8, pitch: 4, count: 12, bottom: [0.5], top: [0.5] },
  {
    mark: 'T5',
    name: 'Girder beside the attic hatch',
    span: 30,
    pitch: 6,
    count: 1,
    bottom: [0.25, 0.5, 0.75],
    top: [0.25, 0.75],
  },
];

/** Eight letter sheets: a list, five trusses, bracing, loads and notes; each names the plans it was made from. */
export async function trussSheets(from: MadeFrom): Promise<Uint8Array> {
  const job = from.version;
  const book = await Book.open({ title: `Truss sheets ${job}`, day: from.day, faces: ['mono', 'monoBold', 'human'] });
  const flow = head(new Flow(book, styles.maker), { job, sheet: 'LIST', from });
  flow.table(
    [
      ['MARK', 'NAME', 'SPAN', 'PITCH', 'COUNT', 'SHEET'],
      ...trusses.map((t, i) => [
        t.mark,
        t.name.toUpperCase(),
        `${t.span}-00-00`,
        `${t.pitch}/12`,
        String(t.count),
        String(i + 2),
      ]),
    ],
    { widths: [10, 44, 16, 12, 10, 10] },
  );
  flow.para(
    `MADE FROM: OSTREY DRAFTING, REVISION ${from.revision}, ${from.plansDay}. BEDROOMS ON THAT REVISION: ${from.bedrooms}.`,
    { bold: true },
  );
  flow.para('A CHANGE OF WALLS, SPANS OR OPENINGS ON A LATER REVISION VOIDS THESE SHEETS. ASK FOR NEW ONES.');
  layout(flow.leaf);
  for (const [i, truss] of trusses.entries()) {
    const sheet = head(new Flow(book, styles.maker), { job, sheet: `${truss.mark}`, from });
    sheet.para(`${truss.mark}  ${truss.name.toUpperCase()}   QTY ${truss.count}`, { bold: true, size: 11 });
    drawTruss(sheet.leaf, truss);
    sheet.y = 430;
    members(sheet, truss, i);
  }
  const bracing = head(new Flow(book, styles.maker), { job, sheet: 'BRACING', from });
  bracing.para('BRACING WHILE SETTING AND AFTER', { bold: true, size: 11 });
  for (const text of [
    '1. SET GABLE FIRST AND BRACE IT TO THE GROUND. FALLING TRUSSES KILL; FOLLOW A QUALIFIED SETTER.',
    '2. TOP CHORDS: LATERAL 2X4 AT 8 FT, DIAGONALS EACH 20 FT, UNTIL SHEATHED.',
    '3. WEBS MARKED CLB: ONE CONTINUOUS 2X4, TWO 10D EACH TRUSS, DIAGONAL AT ENDS.',
    '4. BOTTOM CHORDS: 2X4 AT 10 FT, STAYS IN PLACE.',
    '5. DO NOT CUT, NOTCH OR DRILL ANY MEMBER.',
  ])
    bracing.para(text);
  for (const common of trusses.filter((t) => t.mark === 'T2')) drawTruss(bracing.leaf, common, true);
  const last = head(new Flow(book, styles.maker), { job, sheet: 'NOTES', from });
  last.para('DESIGN NOTES', { bold: true, size: 11 });
  last.table(
    [
      ['LOAD', 'TOP CHORD', 'BOTTOM CHORD'],
      ['LIVE / SNOW', '20 PSF', '10 PSF (ATTIC)'],
      ['DEAD', '10 PSF', '10 PSF'],
      ['INCREASE', '1.15', '1.00'],
      ['WIND', '115 MPH, EXPOSURE C', ''],
    ],
    { widths: [30, 36, 34] },
  );
  for (const text of [
    'LUMBER: SOUTHERN PINE NO. 2 CHORDS, STUD WEBS. PLATES 20 GAUGE.',
    'LOADS AS GIVEN BY THE DESIGNER; THE COUNTY DECIDES WHICH LOADS HOLD AT THE SITE.',
    'SEALED COPY ON FILE - DEMONSTRATION. NO SEAL AND NO LICENCE IS SHOWN HERE. NOTHING MAY BE BUILT FROM THESE SHEETS.',
  ])
    last.para(text);
  return book.bytes();
}

function head(flow: Flow, look: { job: string; sheet: string; from: MadeFrom }): Flow {
  const { leaf } = flow;
  leaf.box([36, 30], [540, 46], { width: 1.2 });
  leaf.line([240, 30], [240, 76]);
  leaf.line([430, 30], [430, 76]);
  leaf.text([44, 48], 'FENNMARK TRUSS WORKS', { face: 'monoBold', size: 12 });
  leaf.text([44, 64], 'KILN SIDING, LOWER BRINDLE', { face: 'mono', size: 7.5 });
  leaf.text([248, 44], `JOB ${look.job}`, { face: 'monoBold', size: 9 });
  leaf.text([248, 57], `LINDQVIST, ${place.shouted}`, { face: 'mono', size: 8 });
  leaf.text([248, 69], `PLANS REV ${look.from.revision}  ${look.from.plansDay}`, { face: 'mono', size: 8 });
  leaf.text([438, 46], `SHEET ${look.sheet}`, { face: 'monoBold', size: 10 });
  leaf.text([438, 62], look.from.day, { face: 'mono', size: 8 });
  flow.y = 88;
  return flow;
}

function profile(t: Truss): { bottom: Point[]; top: Point[]; peak: Point } {
  const mono = t.span < 10;
  const rise = (t.pitch / 12) * (mono ? t.span : t.span / 2);
  const peak: Point = [mono ? t.span : t.span / 2, rise + 0.4];
  const under = (s: number): number => (t.scissor === undefined ? 0 : t.scissor * (1 - Math.abs(s - 0.5) * 2));
  const over = (s: number): number => (mono ? rise * s : rise * (1 - Math.abs(s - 0.5) * 2)) + 0.4;
  return {
    bottom: t.bottom.map((s): Point => [s * t.span, under(s)]),
    top: t.top.map((s): Point => [s * t.span, over(s)]),
    peak,
  };
}

function drawTruss(leaf: Leaf, t: Truss, low = false): void {
  const scale = t.span < 10 ? 40 : 15;
  const view = new View(leaf, [t.span < 10 ? 150 : 80, low ? 520 : 330], scale);
  const { bottom, top, peak } = profile(t);
  const thick = { width: 3.4, colour: [0.25, 0.25, 0.25] as const };
  const over = t.span < 10 ? 0.6 : 1.5;
  const mid: Point[] = t.scissor === undefined ? [] : [[t.span / 2, t.scissor]];
  view.path([[0, 0], ...mid, [t.span, 0]], thick);
  view.path(
    [
      [-over, 0.4 - (over * t.pitch) / 12],
      peak,
      ...(t.span < 10 ? [] : [[t.span + over, 0.4 - (over * t.pitch) / 12] as Point]),
    ],
    thick,
  );
  if (t.span < 10) view.line([t.span, 0], peak, thick);
  const web: Point[] = [];
  bottom.forEach((p, i) => {
    web.push(top[i] ?? p, p);
  });
  if (t.mark === 'T1')
    for (let x = 2; x < t.span; x += 2)
      view.line([x, 0], [x, 0.4 + (t.pitch / 12) * (x < 15 ? x : 30 - x)], { width: 1.6 });
  const nodes: Point[] = [];
  if (bottom.length === 2) nodes.push(top[0] ?? peak, bottom[0] ?? peak, peak, bottom[1] ?? peak, top[1] ?? peak);
  else if (bottom.length === 3)
    nodes.push(
      bottom[0] ?? peak,
      top[0] ?? peak,
      bottom[1] ?? peak,
      peak,
      bottom[1] ?? peak,
      top[1] ?? peak,
      bottom[2] ?? peak,
    );
  else nodes.push(...web);
  if (nodes.length > 1) view.path(nodes, { width: 2.4, colour: [0.4, 0.4, 0.4] });
  const joints: Point[] = [[0, 0], ...bottom, [t.span, 0], ...top, peak];
  joints.forEach((p, i) => {
    const [x, y] = view.at(p);
    leaf.box([x - 6, y - 4], [12, 8], { width: 0.7, fill: [0.86, 0.86, 0.86] });
    leaf.text([x, y - 7], String(i + 1), { face: 'mono', size: 7, align: 'centre' });
  });
  view.dim([0, 0], [t.span, 0], t.span < 10 ? -0.8 : -2.2, {
    size: 8.5,
    words: `${String(t.span).padStart(2, '0')}-00-00`,
  });
  view.dim([t.span, 0], [t.span, peak[1]], t.span < 10 ? -0.5 : -2.6, { size: 8.5 });
  view.text([t.span * 0.2, (t.pitch / 12) * t.span * 0.2 + (t.span < 10 ? 0.8 : 1.6)], `${t.pitch}.00 / 12`, {
    face: 'mono',
    size: 8,
  });
}

/** Reactions from the loads on the notes sheet: span x spacing x total load / 2. */
function members(flow: Flow, t: Truss, i: number): void {
  const reaction = Math.round((t.span * 2 * 50) / 2);
  flow.table(
    [
      ['MEMBER', 'LUMBER', 'AXIAL LB', 'STRESS INDEX'],
      ['TOP CHORD', '2X6 SP NO. 2', `C ${Math.round(reaction * 2.1)}`, (0.61 + i * 0.05).toFixed(2)],
      ['BOTTOM CHORD', '2X4 SP NO. 2', `T ${Math.round(reaction * 1.85)}`, (0.55 + i * 0.06).toFixed(2)],
      ['WEB 4-9 CLB', '2X4 STUD', `C ${Math.round(reaction * 0.52)}`, (0.38 + i * 0.04).toFixed(2)],
      ['WEB 5-9', '2X4 STUD', `T ${Math.round(reaction * 0.47)}`, (0.31 + i * 0.03).toFixed(2)],
    ],
    { widths: [28, 26, 24, 22] },
  );
  flow.pairs(
    [
      ['BEARING 1', `${reaction} LB DOWN, ${Math.round(reaction * 0.28)} LB UP (WIND), 5-1/2 IN`],
      ['BEARING 2', `${reaction} LB DOWN, ${Math.round(reaction * 0.28)} LB UP (WIND), 5-1/2 IN`],
      ['SAG', `LIVE L/${960 - i * 60}, TOTAL L/${520 - i * 30}`],
      ['SPACING', '24 IN'],
    ],
    90,
  );
  flow.para('TOTAL LOAD 50 PSF AT 24 IN. SAMPLE FIGURES, NOT A DESIGN.');
}

function layout(leaf: Leaf): void {
  const view = new View(leaf, [90, 640], 6.8);
  view.box([0, 0], [62, 30], { width: 1.2 });
  for (let x = 0; x <= 62; x += 2) view.line([x, -1.5], [x, 31.5], { width: x === 0 || x === 62 ? 1.6 : 0.5 });
  view.box([24, -8], [22, 8], { width: 0.8 });
  for (const [x, words] of [
    [1, 'T1'],
    [12, 'T2'],
    [34, 'T3'],
    [54, 'T2'],
    [61, 'T1'],
  ] as const)
    view.text([x, 33], words, { face: 'monoBold', size: 9 });
  view.text([35, -6], 'T4', { face: 'monoBold', size: 9 });
  leaf.text([90, 710], 'LAYOUT, NOT TO SCALE', { face: 'mono', size: 8 });
}
