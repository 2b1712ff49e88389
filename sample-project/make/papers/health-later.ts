import { county, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { Flow } from '../kit/flow.ts';
import { firmHead, formHead, styles } from '../kit/heads.ts';

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
