import type { PageText } from '../../../core/intake/reading/page-text.ts';
import { Chance } from './chance.ts';
import { type Block, composeDocument, kinds, type SetDocument, setSize } from './compose.ts';

/**
 * Scans of several papers as they come out of a scanner's tray, and papers of many pages that must stay whole. First
 * pages are documents of the reading set; what follows them is made here.
 */

export interface BundlePage {
  readonly document: SetDocument;
  /** Something to read; a drawing without a word; a side without ink. */
  readonly sort: 'words' | 'drawing' | 'blank';
  /** Stands in the set as it is: its words may have been read before. */
  readonly ofSet: boolean;
}

export interface Bundle {
  readonly pages: readonly BundlePage[];
  /** 0-based pages at which papers begin, the first among them. */
  readonly begins: readonly number[];
  /** The last page with ink of each. */
  readonly ends: readonly number[];
  readonly kinds: readonly string[];
}

const prose = [
  'The work shall follow the approved plans. Changes are to be shown to this office before they are built.',
  'The septic permit, the driveway permit and the certificate of insurance shall be on the site during inspections.',
  'Erosion is to be held back by silt fence until grass has grown over the disturbed ground.',
  'Any person who is aggrieved by this decision may appeal in writing within thirty days after it was mailed.',
  'Nothing in this paper sets aside the rights of neighbours, easements of record, or the rules of other offices.',
  'Fees are not returned once an inspection was made. A second visit for the same reason is charged again.',
  'The building permit is not valid until the contractor license and the address letter are on file.',
  'Keep a copy where the workers can see it. The owner answers for what is built under it.',
];

const plainTitles = [
  'CONDITIONS OF APPROVAL',
  'GENERAL CONDITIONS',
  'INSPECTIONS REQUIRED',
  'NOTES',
  'DEFINITIONS',
  'INSTRUCTIONS TO THE OWNER',
];
const attached = ['EXHIBIT A', 'SCHEDULE B, PART I', 'ATTACHMENT 1', 'Exhibit B: Legal Description', 'APPENDIX A'];

interface Following {
  readonly chance: Chance;
  readonly first: SetDocument;
  readonly at: number;
  readonly of: number;
  /** The paper counts its pages. */
  readonly counted: boolean;
}

function titleOf({ blocks }: SetDocument): string {
  return blocks.flatMap((block) => (block.sort === 'title' ? [block.text] : []))[0] ?? '';
}

function someProse(chance: Chance): readonly Block[] {
  return Array.from({ length: chance.whole(3, 7) }, (): Block => ({ sort: 'text', text: chance.pick(prose) }));
}

/** What stands at the head of a later page. */
function headOf({ chance, first }: Following): readonly Block[] {
  const letterhead = first.blocks.filter(({ sort }) => sort === 'letterhead');
  const number = first.truth.texts.number;
  switch (chance.whole(0, 5)) {
    case 0:
      return [];
    case 1:
      return [{ sort: 'title', text: chance.pick(plainTitles) }];
    case 2:
      return [{ sort: 'title', text: chance.pick(attached) }];
    case 3:
      return [...letterhead, { sort: 'title', text: `${titleOf(first)} (continued)` }];
    case 4:
      // The whole head again, with the number, as programs print it on every page.
      return [
        ...letterhead,
        { sort: 'title', text: titleOf(first) },
        ...(number === undefined ? [] : [{ sort: 'text', text: numberLine(first, number) } as const]),
      ];
    default:
      return [{ sort: 'text', text: titleOf(first) }];
  }
}

/** The number under the label it bears on the first page. */
function numberLine({ blocks }: SetDocument, number: string): string {
  const pairs = blocks.flatMap((block) => (block.sort === 'pairs' ? block.pairs : []));
  const label = pairs.find(([, value]) => value === number)?.[0];
  return label === undefined ? number : `${label}: ${number}`;
}

function laterPage(following: Following): SetDocument {
  const { chance, first, at, of, counted } = following;
  const table: Block = {
    sort: 'pairs',
    layout: 'table',
    pairs: [
      ['Footing', 'before the pour'],
      ['Framing', 'before cover'],
      ['Final', 'before moving in'],
    ],
  };
  return {
    ...first,
    blocks: [
      ...headOf(following),
      ...someProse(chance),
      ...(chance.yes(0.3) ? [table] : []),
      ...(counted ? [{ sort: 'foot', text: `Page ${at} of ${of}` } as const] : []),
    ],
  };
}

/** The first page of a paper of several: its own "Page 1 of 1" goes, and it says of how many it is the first. */
function firstPage(document: SetDocument, of: number, counted: boolean): SetDocument {
  const own = document.blocks.filter((block) => !(block.sort === 'foot' && /Page 1 of 1/.test(block.text)));
  return { ...document, blocks: counted ? [...own, { sort: 'foot', text: `Page 1 of ${of}` }] : own };
}

/** One paper: its first page, what follows, now and then a drawing and the blank back of its last sheet. */
function paper(chance: Chance, index: number, of: number): readonly BundlePage[] {
  const document = composeDocument(index);
  const counted = chance.yes(0.5);
  const pages: BundlePage[] = [
    { document: of === 1 ? document : firstPage(document, of, counted), sort: 'words', ofSet: of === 1 },
  ];
  for (let at = 2; at <= of; at += 1)
    pages.push({ document: laterPage({ chance, first: document, at, of, counted }), sort: 'words', ofSet: false });
  if (chance.yes(0.15)) pages.push({ document, sort: 'drawing', ofSet: false });
  if (chance.yes(0.2)) pages.push({ document, sort: 'blank', ofSet: false });
  return pages;
}

/** One in five papers is followed by another of its kind: two inspections, two certificates. */
function nextIndex(chance: Chance, last: number | undefined, used: ReadonlySet<number>): number {
  const alike = last !== undefined && chance.yes(0.2);
  let index = alike ? (last + kinds.length) % setSize : chance.whole(0, setSize - 1);
  // No paper lies in the tray twice.
  while (used.has(index)) index = (index + kinds.length + 1) % setSize;
  return index;
}

/** Now and then the first sheet lay in the tray with its back up. */
function blankFirst(chance: Chance, index: number): readonly BundlePage[] {
  return chance.yes(0.15) ? [{ document: composeDocument(index), sort: 'blank', ofSet: false }] : [];
}

function lastInked(pages: readonly BundlePage[]): number {
  return pages.findLastIndex(({ sort }) => sort !== 'blank');
}

/** A tray of three to ten papers. */
export function composeBundle(seed: number, number: number): Bundle {
  const chance = new Chance(104_729 * (seed + 1) + number);
  const pages: BundlePage[] = [];
  const [begins, ends]: [number[], number[]] = [[], []];
  const found: string[] = [];
  const used = new Set<number>();
  let last: number | undefined;
  for (let left = chance.whole(3, 10); left > 0; left -= 1) {
    last = nextIndex(chance, last, used);
    used.add(last);
    const index = seed * setSize + last;
    if (pages.length === 0) pages.push(...blankFirst(chance, index));
    begins.push(pages.length);
    found.push(composeDocument(index).truth.kind);
    pages.push(...paper(chance, index, chance.yes(0.7) ? 1 : chance.whole(2, 4)));
    ends.push(lastInked(pages));
  }
  return { pages, begins, ends, kinds: found };
}

/** One paper of two to twelve pages. */
export function composeWhole(seed: number, number: number): Bundle {
  const chance = new Chance(1_299_709 * (seed + 1) + number);
  const index = seed * setSize + chance.whole(0, setSize - 1);
  const first = blankFirst(chance, index);
  const pages = [...first, ...paper(chance, index, chance.whole(2, 12))];
  const { kind } = composeDocument(index).truth;
  return { pages, begins: [first.length], ends: [lastInked(pages)], kinds: [kind] };
}

/** A page with ink and not one word, as reading tells of one. */
export function drawingPage(page: number): PageText {
  return { page, width: 612, height: 792, source: 'picture', turn: 0, lean: 0, lines: [] };
}

/** A page without ink, as reading tells of one. */
export function blankPage(page: number): PageText {
  return { ...drawingPage(page), blank: true };
}
