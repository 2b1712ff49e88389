import { county, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Chance } from '../kit/chance.ts';
import { Flow } from '../kit/flow.ts';
import { countyHead, firmHead, formHead, styles } from '../kit/heads.ts';
import type { Leaf } from '../kit/leaf.ts';
import { scan } from '../kit/picture.ts';

const pen = [0.12, 0.16, 0.45] as const;

/** Drops in sixteenths of an inch for each 30-minute reading; the last three agree within one sixteenth. */
const holes = [
  { name: 'P-1', depth: '24 in', drops: [38, 34, 31, 30, 30, 30] },
  { name: 'P-2', depth: '24 in', drops: [36, 32, 29, 28, 28, 28] },
  { name: 'P-3', depth: '26 in', drops: [33, 29, 27, 26, 26, 26] },
] as const;

/** Minutes for one inch, from the last 30-minute drop (elapsed minutes / inches). */
export const rates = holes.map((hole) => Math.round((30 / (hole.drops[5] / 16)) * 10) / 10);

function inches(sixteenths: number): string {
  const whole = Math.floor(sixteenths / 16);
  let [top, bottom] = [sixteenths % 16, 16];
  while (top > 0 && top % 2 === 0) [top, bottom] = [top / 2, bottom / 2];
  return top === 0 ? `${whole}` : `${whole} ${top}/${bottom}`;
}

export async function percResults(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Soil and percolation', day: '2024-08-20', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.health), {
    office: `${county} Environmental Health`,
    title: 'Site and Soil Evaluation',
    number: 'SE-24-0288',
  });
  flow.fields(
    [
      [3, 'Owner', owners.both],
      [2, 'Parcel', place.parcel],
    ],
    { hand: true },
  );
  flow.fields(
    [
      [3, 'Place', place.lot],
      [1, 'Bedrooms planned', '3'],
      [1, 'Acres', place.acres],
    ],
    { hand: true },
  );
  flow.fields(
    [
      [2, 'Tested by', 'B. Achterberg, soil tester 0417'],
      [1, 'Presoak', 'Aug 12 2024'],
      [1, 'Test', 'Aug 13 2024'],
    ],
    { hand: true },
  );
  flow.gap(8).heading('Backhoe pits');
  flow.table(
    [
      ['Depth', 'Pit 1: texture, colour', 'Pit 2: texture, colour', 'Note'],
      ['0-9 in', 'Sandy loam, dark brown', 'Sandy loam, dark brown', 'roots'],
      ['9-28 in', 'Sandy clay loam, brown', 'Loam, yellow brown', 'crumbly'],
      ['28-52 in', 'Clay loam, red brown', 'Clay loam, red brown', 'firm'],
      ['52-66 in', 'Weathered rock', 'Weathered rock at 60', 'refusal 66'],
    ],
    { widths: [14, 32, 32, 18], handFrom: 1 },
  );
  flow.para('Water seen: none to 66 in.   Mottles: none to 52 in.   Slope: 4 %, east.');
  flow
    .heading('Finding')
    .tick('Suitable for a conventional trench system, primary and repair area', true)
    .tick('Suitable with changes', false)
    .tick('Not suitable', false);
  flow.signed('B. Achterberg', 'soil tester', '8-20-24');

  const tests = new Flow(book, styles.health);
  formHead(tests, {
    office: `${county} Environmental Health`,
    title: 'Percolation Test Readings',
    number: 'SE-24-0288',
  });
  tests.para(
    'Holes 6 in. across, sides scratched, 2 in. of gravel. Soaked overnight. Readings every 30 minutes, water refilled to 6 in.',
  );
  for (const hole of holes) readings(tests, hole);

  const summary = new Flow(book, styles.health);
  formHead(summary, { office: `${county} Environmental Health`, title: 'Rates and Sizing', number: 'SE-24-0288' });
  const mean = Math.round((rates.reduce((a, b) => a + b, 0) / rates.length) * 10) / 10;
  summary.table(
    [
      ['Hole', 'Last drop, in.', 'Minutes', 'Rate, min per in.'],
      ...holes.map((h, i) => [h.name, inches(h.drops[5]), '30', String(rates[i])]),
      ['Average', '', '', String(mean)],
    ],
    { widths: [20, 26, 22, 32], handFrom: 1 },
  );
  summary.para('Rates differ by less than 20 min/in., so they are averaged.');
  summary.table(
    [
      ['Sizing (for the designer)', 'Figure'],
      ['Design flow, 3 bedrooms x 150 gal/day', '450 gal/day'],
      ['Loading rate for this soil', '0.60 gal/day per sq ft'],
      ['Trench bottom needed', '750 sq ft'],
      ['Trench at 3 ft wide', '250 ft'],
      ['Tank, at least', '1,000 gal'],
    ],
    { widths: [62, 38], handFrom: 1 },
  );
  summary.para('Figures serve this sample. The county sets loading rates and sizes the system in its permit.', {
    size: 8,
  });
  summary.signed('B. Achterberg', 'soil tester', '8-20-24');

  const sketch = new Flow(book, styles.health);
  formHead(sketch, { office: `${county} Environmental Health`, title: 'Field Sketch', number: 'SE-24-0288' });
  fieldSketch(sketch.leaf);
  return scan(await book.bytes(), { seed: 'perc', title: 'perc results', day: '2024-08-21', quality: 46 });
}

function readings(flow: Flow, hole: (typeof holes)[number]): void {
  const clock = (i: number): string =>
    `${8 + Math.floor((10 + i * 30) / 60)}:${String((10 + i * 30) % 60).padStart(2, '0')}`;
  flow.heading(`Hole ${hole.name}    depth ${hole.depth}`);
  flow.table(
    [
      ['Reading', 'From', 'To', 'Drop, in.', 'Min per in.'],
      ...hole.drops.map((drop, i) => [
        String(i + 1),
        clock(i),
        clock(i + 1),
        inches(drop),
        String(Math.round((30 / (drop / 16)) * 10) / 10),
      ]),
    ],
    { widths: [14, 20, 20, 24, 22], handFrom: 1, size: 8.5 },
  );
}

function fieldSketch(leaf: Leaf): void {
  const chance = new Chance('sketch');
  const ink = { colour: pen, width: 1.1 };
  for (let y = 110; y <= 690; y += 18) leaf.line([60, y], [552, y], { width: 0.2, colour: [0.75, 0.8, 0.85] });
  for (let x = 60; x <= 552; x += 18) leaf.line([x, 110], [x, 690], { width: 0.2, colour: [0.75, 0.8, 0.85] });
  const shaky = (points: readonly (readonly [number, number])[]): void =>
    leaf.curve(
      points.flatMap(([x, y], i): [number, number][] => {
        const [nx, ny] = points[i + 1] ?? [x, y];
        return [0, 0.25, 0.5, 0.75].map((t) => [x + (nx - x) * t + chance.bell(), y + (ny - y) * t + chance.bell()]);
      }),
      ink,
    );
  shaky([
    [120, 640],
    [132, 150],
    [478, 172],
    [500, 650],
    [120, 640],
  ]);
  shaky([
    [230, 420],
    [232, 352],
    [366, 354],
    [366, 422],
    [230, 420],
  ]);
  for (const y of [230, 248, 266, 284])
    shaky([
      [300, y],
      [440, y + 4],
    ]);
  const words: [number, number, string][] = [
    [250, 396, 'HOUSE 3 BR'],
    [302, 220, 'PRIMARY AREA'],
    [150, 560, 'WELL (OVER 100 FT)'],
    [70, 700, 'HERON LANE TO THE WEST'],
    [180, 290, 'P-1'],
    [262, 300, 'P-2'],
    [452, 300, 'P-3'],
    [318, 330, 'PIT 1'],
    [392, 330, 'PIT 2'],
    [420, 130, 'N'],
  ];
  for (const [x, y, text] of words) leaf.hand([x, y], text, { size: 10, colour: pen, chance });
  leaf.line([424, 138], [424, 168], ink);
  leaf.circle([180, 540], 6, ink);
}

export async function septicPermit(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Septic permit', day: '2024-10-28', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.health), {
    office: `${county} Environmental Health`,
    title: 'Permit to Build an Onsite Sewage System',
    number: 'EH-24-0317',
  });
  flow.fields([
    [3, 'Issued to', owners.both],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [3, 'Place', place.lot],
    [2, 'Evaluation', 'SE-24-0288'],
  ]);
  flow.fields([
    [1, 'Issued', 'October 28, 2024'],
    [1, 'Good through', 'April 28, 2026 (18 months)'],
  ]);
  flow.gap(10).fields(
    [
      [1, 'BEDROOMS, NOT MORE THAN', '3'],
      [1, 'Design flow', '450 gal/day'],
      [1, 'Water', 'Private well'],
    ],
    { height: 34 },
  );
  flow.gap(6).table(
    [
      ['Part', 'Asked for'],
      ['Tank', '1,000 gallons, two rooms, outlet filter, riser to the surface'],
      ['Distribution box', 'level on undisturbed soil, watertight'],
      ['Trenches', '5 trenches of 50 ft, 3 ft wide, 24 to 30 in. deep, on contour'],
      ['Repair area', 'kept free east of the trenches, equal size'],
      ['Distances', 'well 100 ft; lot line 10 ft; house 10 ft; Teasel Brook 100 ft'],
    ],
    { widths: [22, 78] },
  );
  flow.heading('Conditions');
  for (const text of [
    '1. A house with more bedrooms than this permit needs a new permit. A room that could be used for sleeping may be counted.',
    '2. Call for inspection before anything is covered. Leave the whole system open.',
    '3. Void if the site, the well or the house moves, or if the area is cut, filled or driven on.',
    '4. One extension of 90 days may be asked for before this permit lapses.',
  ])
    flow.para(text, { indent: 10 });
  flow.signed('Corwin Haldane', 'Environmental Health Specialist', '10-28-24');
  flow.rubber([420, 655], ['ISSUED', 'OCT 28 2024'], { angle: 6, size: 13 });
  return scan(await book.bytes(), {
    seed: 'septic',
    title: 'Scan 2024-10-28',
    day: '2024-10-28',
    lid: 20,
    quality: 46,
  });
}

export async function septicExtension(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Extension of EH-24-0317', day: '2026-04-06', faces: ['serif', 'serifBold'] });
  const flow = countyHead(new Flow(book, styles.county), 'Environmental Health', [
    '14 Courthouse Lane, Lower Brindle',
    'Tuesday and Thursday 8:30 to 12',
  ]);
  flow.para('April 6, 2026').para(`${owners.both}\n77 Cooper Street, Lower Brindle`);
  flow.para('Extension of sewage system permit EH-24-0317', { bold: true, size: 13 });
  flow.pairs([
    ['Parcel', `${place.parcel}, ${place.shouted} (${place.lot})`],
    ['Permit issued', 'October 28, 2024'],
    ['Good through, as issued', 'April 28, 2026'],
    ['Extended by', '90 days'],
    ['Good through, extended', 'July 27, 2026'],
    ['Bedrooms', '3, unchanged'],
  ]);
  flow.para(
    'You asked in writing on March 30, 2026, before the permit lapsed. In this county the building need not have begun for that. We looked at the site on April 2: the primary and repair areas are undisturbed. The permit is extended once, by 90 days, counted from the day it would have lapsed.',
  );
  flow.para('It cannot be extended again. The system must be built, inspected and covered by the new date.');
  flow.signed('Corwin Haldane', 'Environmental Health Specialist', '4-6-26');
  return book.bytes();
}

export async function wellPermit(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Well permit WP-25-0102', day: '2025-09-16', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.health), {
    office: `${county} Environmental Health`,
    title: 'Permit to Drill a Private Well',
    number: 'WP-25-0102',
  });
  flow.fields([
    [3, 'Issued to', owners.both],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [3, 'Place', `${place.shouted} (${place.lot})`],
    [2, 'Use', 'One dwelling'],
  ]);
  flow.fields([
    [1, 'Issued', 'September 16, 2025'],
    [1, 'Good through', 'September 16, 2026'],
    [1, 'Driller', 'Stillpot Well Drilling, D-118'],
  ]);
  flow.gap(10).table(
    [
      ['Distance from the well to', 'At least', 'On the site plan'],
      ['Sewage trenches, primary and repair', '100 ft', '162 ft'],
      ['Septic tank', '50 ft', '121 ft'],
      ['Lot lines', '10 ft', '92 ft'],
      ['House foundation', '25 ft', '61 ft'],
    ],
    { widths: [50, 22, 28] },
  );
  flow.para(
    'Casing at least 12 in. above grade, grouted 20 ft. The driller files a log within 30 days and the owner has the water tested before the house is lived in.',
  );
  flow.signed('Corwin Haldane', 'Environmental Health Specialist', '9-16-25');
  flow.rubber([410, 330], ['ISSUED', 'SEP 16 2025'], { angle: -4 });
  return book.bytes();
}

export async function septicFinal(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Septic final EH-24-0317', day: '2026-07-14', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.health), {
    office: `${county} Environmental Health`,
    title: 'Final Inspection of Sewage System',
    number: 'EH-24-0317',
  });
  flow.fields([
    [3, 'Owner', owners.both],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [3, 'Place', place.shouted],
    [1, 'Inspected', 'July 14, 2026'],
    [1, 'Bedrooms', '3'],
  ]);
  flow.fields([
    [2, 'Installer', 'Muddle & Sons Earthworks, SI-0227'],
    [1, 'Result', 'PASSED'],
  ]);
  flow.gap(8);
  for (const text of [
    'Tank 1,000 gal, set level, watertight, filter and riser in place',
    'Trenches 5 x 50 ft, depth 26 in., gravel and cover as permitted',
    'Distances measured: well 162 ft, house 57 ft, lot line 52 ft',
    'Repair area undisturbed and marked',
  ])
    flow.tick(text, true);
  flow
    .gap(6)
    .para(
      'The system may be covered. As-built sketch on file. Passed as seen on the day of the inspection; this is no promise how long it will work.',
    );
  flow.signed('Corwin Haldane', 'Environmental Health Specialist', '7-14-26');
  flow.rubber([400, 330], ['FINAL', 'PASSED', 'JUL 14 2026'], { angle: 5, colour: [0.12, 0.4, 0.25] });
  return book.bytes();
}

export async function waterTest(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Water analysis 27-00318', day: '2027-01-14', faces: ['human', 'humanBold'] });
  const flow = firmHead(new Flow(book, styles.tester), 'Alder Flat Water Laboratory', [
    '9 Weir Lane, Lower Brindle',
    'Laboratory number 0055 (invented)',
  ]);
  flow.para('Report of analysis 27-00318', { bold: true, size: 13 });
  flow.pairs([
    ['Client', owners.both],
    ['Place', `${place.house}, Parcel ${place.parcel}, kitchen tap, private well WP-25-0102`],
    ['Taken', 'January 12, 2027, 9:20, by J. Marrable (laboratory)'],
    ['Reported', 'January 14, 2027'],
  ]);
  flow.table(
    [
      ['Tested for', 'Result', 'Limit', 'Unit', ''],
      ['Total coliform bacteria', 'absent', 'absent', 'per 100 mL', 'meets'],
      ['E. coli', 'absent', 'absent', 'per 100 mL', 'meets'],
      ['Nitrate, as N', '1.4', '10', 'mg/L', 'meets'],
      ['Nitrite, as N', '< 0.05', '1', 'mg/L', 'meets'],
      ['Lead', '< 0.001', '0.015', 'mg/L', 'meets'],
      ['Arsenic', '0.002', '0.010', 'mg/L', 'meets'],
      ['Hardness', '118', 'none', 'mg/L', ''],
      ['pH', '7.1', '6.5-8.5', '', 'meets'],
    ],
    { widths: [36, 16, 16, 18, 14], rule: 'lines' },
  );
  flow.para('Results are for the sample as received. Disinfect and test again after any work on the well.');
  flow.signed('Jocasta Marrable', 'Laboratory Supervisor', '1-14-27');
  return book.bytes();
}

/** The owner's own drawing of the silt fence, by hand on squared paper. */
export async function erosionSketch(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Erosion sketch', day: '2026-04-01', faces: ['sans'] });
  const leaf = book.leaf([612, 792]);
  const chance = new Chance('erosion');
  for (let y = 36; y <= 760; y += 18) leaf.line([36, y], [576, y], { width: 0.25, colour: [0.7, 0.8, 0.85] });
  for (let x = 36; x <= 576; x += 18) leaf.line([x, 36], [x, 756], { width: 0.25, colour: [0.7, 0.8, 0.85] });
  const shaky = (points: readonly (readonly [number, number])[], width = 1.2): void =>
    leaf.curve(
      points.flatMap(([x, y], i): [number, number][] => {
        const [nx, ny] = points[i + 1] ?? [x, y];
        return [0, 0.2, 0.4, 0.6, 0.8].map((t) => [
          x + (nx - x) * t + chance.bell() * 0.8,
          y + (ny - y) * t + chance.bell() * 0.8,
        ]);
      }),
      { colour: pen, width },
    );
  shaky([
    [140, 640],
    [170, 150],
    [500, 172],
    [476, 655],
    [140, 640],
  ]);
  shaky([
    [60, 700],
    [92, 110],
  ]);
  shaky([
    [100, 705],
    [132, 110],
  ]);
  shaky([
    [300, 430],
    [302, 330],
    [352, 331],
    [351, 431],
    [300, 430],
  ]);
  shaky([
    [124, 378],
    [296, 376],
  ]);
  shaky([
    [122, 398],
    [296, 396],
  ]);
  shaky(
    [
      [430, 250],
      [446, 330],
      [440, 420],
      [430, 520],
    ],
    2.2,
  );
  for (let i = 0; i < 12; i += 1)
    shaky(
      [
        [434 + Math.sin(i) * 5, 262 + i * 21],
        [446 + Math.sin(i) * 5, 256 + i * 21],
      ],
      1,
    );
  shaky([
    [360, 300],
    [420, 310],
    [412, 302],
    [420, 310],
    [411, 316],
  ]);
  const words: [number, number, string][] = [
    [206, 70, 'LOT 7 - 418 HERON LANE'],
    [206, 90, 'EROSION SKETCH, APRIL 1 2026'],
    [310, 385, 'HOUSE'],
    [176, 370, 'DRIVE, STONE 50 FT'],
    [390, 236, 'SILT FENCE'],
    [458, 400, '260 FT'],
    [366, 292, 'FALLS 4%'],
    [330, 560, 'SEPTIC, FENCED OFF'],
    [190, 690, 'TOPSOIL PILE HERE, COVERED'],
    [530, 90, 'N'],
    [150, 740, 'DRAWN BY T. LINDQVIST   NOT TO SCALE'],
  ];
  for (const [x, y, text] of words) leaf.hand([x, y], text, { size: 10, colour: pen, chance });
  shaky([
    [534, 130],
    [534, 98],
    [528, 108],
    [534, 98],
    [540, 108],
  ]);
  shaky([
    [200, 660],
    [240, 640],
    [290, 662],
  ]);
  shaky([
    [320, 570],
    [420, 570],
    [420, 540],
    [320, 540],
    [320, 570],
  ]);
  return scan(await book.bytes(), {
    seed: 'erosion',
    title: 'erosion sketch',
    day: '2026-04-01',
    dpi: 150,
    quality: 50,
  });
}
