import { owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { grey } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { View } from '../kit/view.ts';
import { areaAcres, call, corners } from '../plans/parcel.ts';
import { north, notes, schedule } from '../plans/sheet-frame.ts';
import { drawImprovements, drawLot } from '../plans/site.ts';

const archC = [1728, 1296] as const;

/** The survey, one ARCH C sheet, with the house, drive, well and septic areas added at the second date. */
export async function survey(): Promise<Uint8Array> {
  const book = await Book.open({
    title: 'Boundary survey, Lot 7',
    day: '2025-09-08',
    faces: ['human', 'humanBold', 'slab', 'slabBold', 'code'],
    author: 'Orrick & Vane Land Surveying',
  });
  const leaf = book.leaf(archC);
  leaf.box([40, 40], [archC[0] - 80, archC[1] - 80], { width: 2.4 });
  leaf.box([47, 47], [archC[0] - 94, archC[1] - 94], { width: 0.6 });
  const view = new View(leaf, [250, 1150], 2.25);
  drawLot(view, 10.5);
  drawImprovements(view, 9);
  for (const [x, y, words] of [
    [150, 462, 'LOT 8, Thrale'],
    [345, 220, 'Teasel Brook tract'],
    [96, -20, 'LOT 6, Pemberwick'],
  ] as const)
    view.text([x, y], words, { face: 'slab', size: 13, colour: grey });
  const labels = ['5/8 in. rod set', '5/8 in. rod set', 'monument found', '1 in. pipe found'];
  corners.forEach((corner, i) => {
    const west = i < 2;
    view.text([corner[0] + (west ? 10 : -10), corner[1] + (i === 0 || i === 3 ? 8 : -12)], labels[i] ?? '', {
      size: 8.5,
      align: west ? 'left' : 'right',
    });
  });
  north(leaf, [1610, 1010]);
  scaleBar(leaf, view.scale);
  rightSide(leaf);
  return book.bytes();
}

function scaleBar(leaf: Leaf, scale: number): void {
  for (let i = 0; i < 4; i += 1) {
    leaf.box([620 + i * 40 * scale, 1212], [40 * scale, 8], {
      width: 0.8,
      ...(i % 2 === 0 ? { fill: [0.1, 0.1, 0.1] as const } : {}),
    });
    leaf.text([620 + i * 40 * scale, 1206], String(i * 40), { face: 'human', size: 10, align: 'centre' });
  }
  leaf.text([430, 1218], '1 in. = 32 ft', { face: 'human', size: 11 });
  leaf.text([620 + 160 * scale, 1206], '160 feet', { face: 'human', size: 10, align: 'centre' });
}

function rightSide(leaf: Leaf): void {
  const x = 1110;
  leaf.line([x - 20, 47], [x - 20, archC[1] - 47], { width: 1.2 });
  leaf.text([x, 100], 'BOUNDARY SURVEY', { face: 'slabBold', size: 32 });
  leaf.text([x, 130], `${place.lot}, Heron Lane Division`, { face: 'slab', size: 17 });
  leaf.text([x, 152], `Parcel ${place.parcel}   ${areaAcres.toFixed(2)} acres`, { face: 'slab', size: 15 });
  leaf.text([x, 174], `for ${owners.both}`, { face: 'human', size: 14 });
  let y = schedule(leaf, [x, 230], {
    title: 'Calls',
    widths: [90, 250, 160],
    rows: [
      ['Line', 'Bearing', 'Length'],
      ...corners.map((c, i) => {
        const { bearing, length } = call(c, corners[(i + 1) % 4] ?? c);
        return [['west', 'north', 'east', 'south'][i] ?? '', bearing, length];
      }),
    ],
  });
  y = schedule(leaf, [x, y + 50], {
    title: 'Drawn and measured',
    widths: [300, 200],
    rows: [
      ['From - to', 'Feet'],
      ['House - Heron Lane', '132'],
      ['House - north, south line', '190, 195'],
      ['House - east line', '131'],
      ['Well - trenches, tank, house', '162, 121, 61'],
      ['Drive, width at the lot line', '14'],
    ],
  });
  y = notes(leaf, [x, y + 50], {
    title: 'Notes',
    size: 11.5,
    width: 520,
    words: [
      'Field work April 22 to May 2, 2024. Bearings are grid. House, drive, well and septic areas staked and drawn September 8, 2025.',
      'Heights NAVD 88, from the county mark at Heron Lane and Mill Road.',
      'Easement of ten feet along Heron Lane for utilities, Plat Book 14, Page 62.',
      'The flood zone is for the county to determine.',
    ],
  });
  leaf.box([x, y + 20], [240, 130], { width: 0.8, dash: [8, 5], colour: grey });
  ['SEALED COPY ON FILE', 'DEMONSTRATION', 'no seal, no licence'].forEach((line, i) => {
    leaf.text([x + 120, y + 72 + i * 20], line, {
      face: 'humanBold',
      size: i === 2 ? 10 : 14,
      align: 'centre',
      colour: grey,
    });
  });
  leaf.line([x - 20, 1130], [archC[0] - 47, 1130], { width: 1.2 });
  leaf.text([x, 1160], 'Orrick & Vane Land Surveying', { face: 'slabBold', size: 20 });
  leaf.text([x, 1182], 'The Tollhouse, Lower Brindle', { face: 'human', size: 12 });
  leaf.text([x, 1206], 'Dated 2024-05-06', { face: 'code', size: 13 });
  leaf.text([x, 1226], 'Rev 1 2025-09-08: house, drive, well, septic staked', { face: 'code', size: 11 });
  leaf.text([1660, 1226], '1 of 1', { face: 'humanBold', size: 13, align: 'right' });
}
