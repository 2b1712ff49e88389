import { county, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { formHead, styles } from '../kit/heads.ts';
import { scan } from '../kit/picture.ts';
import { applicationFoot } from './application.ts';

export async function ownerBuilder(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Owner-builder statement', day: '2026-04-13', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Building Department`,
    title: 'Statement of an Owner Who Builds',
    number: 'Form BD 9',
  });
  flow.fields([[3, 'Owners', owners.both]]);
  flow.fields([
    [3, 'Place', `${place.house} (${place.lot})`],
    [2, 'Parcel', place.parcel],
  ]);
  flow.gap(8).para('Each line is marked by both owners with their initials.');
  for (const [i, text] of statements.entries()) {
    const top = flow.y;
    flow.para(`${i + 1}.  ${text}`, { indent: 66 });
    flow.leaf.line([flow.left, top + 15], [flow.left + 54, top + 15], { width: 0.5 });
    flow.leaf.hand([flow.left + 3, top + 13], 'HL  TL', { size: 9, colour: [0.1, 0.13, 0.42], chance: flow.chance });
  }
  flow.para(
    "The official wording is the county's own. This text belongs to an invented county and is not a form to use.",
    { size: 7.5 },
  );
  applicationFoot(flow, true);
  return scan(await book.bytes(), { seed: 'owner builder', title: 'Owner builder statement', day: '2026-04-13' });
}

const statements = [
  'We own the land and build this one house for ourselves.',
  'We direct the work on the site ourselves, or hire firms licensed for their trade.',
  'We do not plan to sell or rent the house within one year after it is finished.',
  'We know that we answer for the safety of those we pay, for wages and for insurance.',
  'We know that no work is covered before it has been inspected.',
];

export async function permitCard(): Promise<Uint8Array> {
  const book = await Book.open({ title: 'Permit card', day: '2026-05-08', faces: ['sans', 'sansBold'] });
  const flow = formHead(new Flow(book, styles.building, [792, 612]), {
    office: `${county} Building Department`,
    title: 'BUILDING PERMIT',
    number: 'BP-26-0412',
  });
  flow.fields([
    [3, 'Place', place.shouted],
    [2, 'Parcel', place.parcel],
    [2, 'Issued', 'May 8, 2026'],
  ]);
  flow.fields([
    [4, 'Owners', owners.both],
    [2, 'Builder', 'OWNER'],
    [2, 'Valuation', '$398,400'],
  ]);
  flow.fields([
    [3, 'Work', 'New dwelling, 1,860 sq ft, 3 bedrooms'],
    [2, 'Plans', 'Ostrey Drafting, revision C'],
    [2, 'Start by', 'November 8, 2026 (6 months)'],
  ]);
  flow.gap(8).table([['Inspection', 'Before', 'Date', 'By', 'Inspection', 'Before', 'Date', 'By'], ...cardLines], {
    widths: [20, 17, 8, 6, 20, 17, 8, 6],
    size: 9,
  });
  flow.para(
    'Keep this card dry and on the site, seen from the road. Call one working day ahead, before 14:00. Nothing is covered until the line is signed. The permit lapses 180 days after the last approved inspection.',
  );
  flow.signed('Ludo Vantreight', 'Building Official', '5-8-26');
  return scan(await book.bytes(), { seed: 'card', title: 'permit card', day: '2026-05-08', sideways: [0] });
}

const cardLines = [
  ['Footing', 'concrete', '', '', 'Insulation', 'wallboard', '', ''],
  ['Slab, termite treatment', 'concrete', '', '', 'Septic', 'cover', '', ''],
  ['Rough trades', 'insulation', '', '', 'Electrical final', 'power on', '', ''],
  ['Framing', 'insulation', '', '', 'Plumbing, mechanical final', 'occupancy', '', ''],
  ['Temporary power', 'power on', '', '', 'Building final', 'occupancy', '', ''],
];

export interface Result {
  readonly title: string;
  readonly number: string;
  readonly day: string;
  readonly words: string;
  readonly inspector: string;
  readonly pen: string;
  readonly items: readonly string[];
  readonly note: string;
}

const stampFrom = 430;

export async function inspectionResult(result: Result): Promise<Uint8Array> {
  const book = await Book.open({
    title: `Inspection result ${result.number}`,
    day: result.day,
    faces: ['sans', 'sansBold'],
  });
  const flow = formHead(new Flow(book, styles.building), {
    office: `${county} Building Inspections`,
    title: `Inspection Result: ${result.title}`,
    number: result.number,
  });
  flow.fields([
    [2, 'Permit', 'BP-26-0412'],
    [3, 'Place', place.shouted],
    [2, 'Parcel', place.parcel],
  ]);
  flow.fields([
    [2, 'Inspected', result.words],
    [3, 'Inspector', result.inspector],
    [2, 'Result', 'PASSED'],
  ]);
  flow.gap(8);
  for (const item of result.items) flow.tick(item, true);
  flow.gap(4).para(result.note);
  // A note that runs the whole width leaves no room for the stamp beside it.
  const runsUnder = flow.leaf.widthOf(result.note, styles.building.body, styles.building.size) > stampFrom - flow.left;
  const clear = runsUnder ? flow.y + 20 : 0;
  flow.para('Passed as seen on the day. It covers what could be seen and no later change.', { size: 8 });
  flow.signed(result.inspector, 'Inspector', result.pen);
  const at = [stampFrom, Math.max(flow.y - 70, clear)] as const;
  flow.rubber(at, ['PASSED', result.words.toUpperCase()], { colour: [0.12, 0.4, 0.25], angle: 5 });
  return book.bytes();
}

export const results: Readonly<Record<string, Result>> = {
  'footing inspection.pdf': {
    title: 'Footings',
    number: 'IN-26-2210',
    day: '2026-06-03',
    words: 'June 3, 2026',
    inspector: 'Wilma Askeland',
    pen: '6-3-26',
    items: [
      'Trenches 24 in. wide, bottom on undisturbed soil, 18 in. below grade',
      'Two no. 4 bars on chairs, lapped 20 in.',
      'Grounding electrode bar brought up at the north-east corner',
      'Set back from lot lines as on sheet C1, revision C',
    ],
    note: 'Concrete may be placed. Keep water out of the trenches.',
  },
  'slab inspection.pdf': {
    title: 'Slab',
    number: 'IN-26-2397',
    day: '2026-06-18',
    words: 'June 18, 2026',
    inspector: 'Wilma Askeland',
    pen: '6-18-26',
    items: [
      'Gravel 4 in., vapor sheet lapped and taped',
      'Edge insulation as on sheet S3',
      'Plumbing under the slab under test, see IN-26-2391',
      'Termite treatment record shown, June 16, 2026',
    ],
    note: 'Concrete may be placed.',
  },
  'rough trades.pdf': {
    title: 'Rough Electrical, Plumbing, Mechanical',
    number: 'IN-26-3120',
    day: '2026-09-03',
    words: 'September 3, 2026',
    inspector: 'Ned Quillan',
    pen: '9-3-26',
    items: [
      'Electrical: boxes, cables and bonding as on sheet E1',
      'Plumbing: drains and supply under test, no drop in 15 minutes',
      'Mechanical: ducts sealed, duct test after trim',
      'Nail plates where bored within 1 1/4 in. of the face',
    ],
    note: 'All three trades passed. Framing inspection may be called.',
  },
  'FRAMING passed.pdf': {
    title: 'Framing',
    number: 'IN-26-3188',
    day: '2026-09-10',
    words: 'September 10, 2026',
    inspector: 'Wilma Askeland',
    pen: '9-10-26',
    items: [
      'Trusses as on truss sheets FTW-26-0044 R, bracing in place, sheets on site',
      'Headers, straps and hold-downs as on S2 and S3',
      'Bedroom windows open wide enough, sills under 44 in.',
      'Study has no door and no closet, as on A1 revision C',
    ],
    note: 'Insulation may begin.',
  },
  'insulation insp 9-24.pdf': {
    title: 'Insulation',
    number: 'IN-26-3301',
    day: '2026-09-24',
    words: 'September 24, 2026',
    inspector: 'Wilma Askeland',
    pen: '9-24-26',
    items: [
      'Walls R-21, no gaps seen',
      'Plates, penetrations and rim sealed',
      'Baffles at every truss bay, attic card ready for R-49',
    ],
    note: 'Walls may be covered.',
  },
  'trades final.pdf': {
    title: 'Trades Final',
    number: 'IN-27-0288',
    day: '2027-02-16',
    words: 'February 16, 2027',
    inspector: 'Ned Quillan',
    pen: '2-16-27',
    items: [
      'Electrical final: panel labelled, smoke and carbon monoxide alarms joined',
      'Plumbing final: fixtures, water heater valve piped',
      'Mechanical final: heat pump running, condensate piped',
      'Energy certificate posted at the panel',
    ],
    note: 'Electrical, plumbing and mechanical passed. Building final may be called when the other offices have signed.',
  },
};
