import { county, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { countyHead, formHead, styles } from '../kit/heads.ts';
import { scan } from '../kit/picture.ts';
import { fieldSketch } from './sketches.ts';

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
    'You asked in writing on March 30, 2026, before the permit lapsed. You showed the recorded construction mortgage; that is enough here, the building need not have begun. We looked at the site on April 2: the primary and repair areas are undisturbed. The permit is extended once, by 90 days, counted from the day it would have lapsed.',
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
