import { PDFHexString, PDFName, type PDFRef, PDFString } from 'pdf-lib';
import { house, owners, place } from '../cast.ts';
import { Book } from '../kit/book.ts';
import { grey } from '../kit/ink.ts';
import type { Leaf } from '../kit/leaf.ts';
import { View } from '../kit/view.ts';
import { floorPlan } from './floor.ts';
import { drawWalls, type Revision, revisions } from './house.ts';
import { elevations, longSide, roofPlan, sections } from './outside.ts';
import { electrical, energySheet, plumbing } from './services.ts';
import { notes, openSheet, schedule, sheetList } from './sheet-frame.ts';
import { sitePlan } from './site.ts';
import { details, foundation, framing } from './structure.ts';

/** The whole set, twelve ARCH D sheets, with a linked sheet list, bookmarks and page labels. */
export async function planSet(revision: Revision): Promise<Uint8Array> {
  const book = await Book.open({
    title: `Lindqvist house, revision ${revision}`,
    day: revisions[revision].day,
    faces: ['human', 'humanBold', 'slab', 'slabBold', 'code'],
    author: 'Ostrey Drafting',
    program: 'Drawing program of Ostrey Drafting',
  });
  const rows = titleSheet(book, revision);
  for (const sheet of [
    sitePlan,
    floorPlan,
    elevations,
    roofPlan,
    sections,
    foundation,
    framing,
    details,
    electrical,
    plumbing,
    energySheet,
  ])
    sheet(book, revision);
  linkSheets(book, rows);
  return book.bytes();
}

interface Row {
  readonly top: number;
  readonly left: number;
  readonly right: number;
}

function titleSheet(book: Book, revision: Revision): readonly Row[] {
  const leaf = openSheet(book, 'G1', revision);
  leaf.text([130, 190], 'A HOUSE ON HERON LANE', { face: 'slabBold', size: 68 });
  leaf.text([134, 240], `${place.house}  (${place.lot})   Parcel ${place.parcel}   Brindlemoor County`, {
    face: 'human',
    size: 22,
  });
  leaf.text([134, 272], `for ${owners.both}`, { face: 'human', size: 22, colour: grey });
  const view = new View(leaf, [150, 790], 15);
  drawWalls(view, revision, [0.25, 0.25, 0.27]);
  leaf.text([150, 960], 'Key plan, front below', { face: 'human', size: 15, colour: grey });
  const at = [1270, 330] as const;
  const widths = [110, 480, 120, 140];
  schedule(leaf, at, {
    title: 'Sheets',
    widths,
    size: 16,
    rows: [
      ['Sheet', 'Title', 'Rev', 'Day'],
      ...sheetList.map(([n, title]) => [n, title, revision, revisions[revision].day]),
    ],
  });
  buildingFacts(leaf, revision);
  const face = new View(leaf, [1270, 1570], 13);
  longSide(face, true);
  notes(leaf, [130, 1040], {
    title: 'General notes',
    size: 18,
    width: 1020,
    words: [
      'These drawings belong to an invented sample lot. No house may be built from them.',
      'The owner builds. Firms hired are licensed for their trade where the State asks for it.',
      'Call for utility locates before any digging. Nothing is covered before it has been inspected and passed.',
      'Septic permit EH-24-0317 is for three bedrooms. Any room that can be used for sleeping may be counted.',
      'Trusses are designed by the truss maker from the revision named on the truss sheets. Revisions must agree.',
      'Where drawing and county rule differ, the county rule goes first. Ask before building.',
      'Print on 24 x 36 inch sheets without scaling.',
    ],
  });
  const row = 16 * 1.95;
  return sheetList.map((_, i) => ({
    top: at[1] + row * (i + 1),
    left: at[0],
    right: at[0] + widths.reduce((a, b) => a + b, 0),
  }));
}

function buildingFacts(leaf: Leaf, revision: Revision): void {
  schedule(leaf, [1270, 860], {
    title: 'The building',
    widths: [430, 420],
    size: 17,
    rows: [
      ['What', 'How much'],
      ['Heated floor', `${house.heated.toLocaleString('en-US')} sq ft`],
      ['Porch', '176 sq ft'],
      ['Bedrooms', String(revisions[revision].bedrooms)],
      ['Baths', '2'],
      ['Stories, height', '1, 16\'-11"'],
      ['Finished floor', '212.50 ft, NAVD 88'],
      ['Volume, heated', `${house.volume.toLocaleString('en-US')} cu ft`],
      ['Foundation', 'slab on grade'],
      ['Snow, wind, frost', 'as the county states'],
    ],
  });
}

/** Links from the sheet list to the sheets by name, a bookmark and a label for each sheet. */
function linkSheets(book: Book, rows: readonly Row[]): void {
  const { context } = book.doc;
  const title = book.leaves[0];
  if (title === undefined) return;
  const names = sheetList.map(([number], i) => ({ name: `sheet.${number}`, ref: book.leaves[i]?.page.ref }));
  const sorted = [...names].sort((a, b) => (a.name < b.name ? -1 : 1));
  const dests = sorted.flatMap(({ name, ref }) =>
    ref === undefined ? [] : [PDFString.of(name), context.obj([ref, 'Fit'])],
  );
  book.catalogue('Names', context.obj({ Dests: context.register(context.obj({ Names: dests })) }));
  const annots = rows.map((row, i) =>
    context.register(
      context.obj({
        Type: 'Annot',
        Subtype: 'Link',
        Border: [0, 0, 0],
        Rect: [row.left, title.height - row.top - 31, row.right, title.height - row.top],
        Dest: PDFString.of(names[i]?.name ?? ''),
      }),
    ),
  );
  title.page.node.set(PDFName.of('Annots'), context.obj(annots));
  outline(
    book,
    names.flatMap((n) => (n.ref === undefined ? [] : [n.ref])),
  );
  const labels = sheetList.flatMap(([number], i) => [i, context.obj({ P: PDFString.of(number) })]);
  book.catalogue('PageLabels', context.obj({ Nums: labels }));
}

function outline(book: Book, pages: readonly PDFRef[]): void {
  const { context } = book.doc;
  const root = context.nextRef();
  const refs = pages.map(() => context.nextRef());
  pages.forEach((page, i) => {
    const [number, title] = sheetList[i] ?? ['', ''];
    const around = { ...(i > 0 ? { Prev: refs[i - 1] } : {}), ...(i + 1 < pages.length ? { Next: refs[i + 1] } : {}) };
    const item = { Title: PDFHexString.fromText(`${number}  ${title}`), Parent: root, Dest: [page, 'Fit'], ...around };
    const ref = refs[i];
    if (ref !== undefined) context.assign(ref, context.obj(item));
  });
  context.assign(root, context.obj({ Type: 'Outlines', First: refs[0], Last: refs.at(-1), Count: refs.length }));
  book.catalogue('Outlines', root);
}
