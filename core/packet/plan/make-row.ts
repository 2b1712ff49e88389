import { dayInWords } from '../../vocabulary/days.ts';
import type { NeedReading } from '../../vocabulary/finding.ts';
import type { Paper } from '../../vocabulary/lot.ts';
import type { Delivery, Need, Office, PaperKind } from '../../vocabulary/practice.ts';
import type { EditionContent, PacketOrder, PlanTab } from '../plan-model.ts';
import { type Found, noContent } from './found.ts';
import { onScreen } from './on-screen.ts';
import type { Row, RowPages } from './row.ts';

interface PlaceOrder {
  readonly usable: boolean;
  readonly content: EditionContent | undefined;
  readonly need: Need | undefined;
  readonly delivery: Delivery;
  readonly override: boolean;
}

/** Where a paper is at this visit: in the file, beside it, carried by hand, missing or to follow. */
export function placeOf(found: Found | undefined, by: PlaceOrder): PlanTab['place'] {
  if (found === undefined || !by.usable) return by.override ? 'to follow' : 'missing';
  if (found.edition.physicalOnly) return 'by hand';
  if (by.need?.use === 'show' && (by.delivery.way === 'counter' || by.delivery.way === 'lender')) return 'by hand';
  if (by.need?.form === 'paper' && onScreen(by.delivery)) return 'by hand';
  // A file that gave no pages can only go as it is.
  if (found.edition.sealed || by.delivery.untouched || by.content?.pages.length === 0) return 'beside';
  return 'inside';
}

/** What to tell of a paper that is carried by hand, where the errand sheet doesn't say it anyway. */
export function byHandNote(
  title: string,
  by: { readonly found: Found | undefined; readonly need: Need | undefined; readonly delivery: Delivery },
): string | undefined {
  if (by.found?.edition.physicalOnly === true) return `"${title}" exists on paper only: carry it yourself.`;
  if (by.need?.use === 'show') return undefined;
  return `"${title}" is wanted on paper: it can't go with the files.`;
}

/** What a row is made of. */
export interface RowOrder {
  readonly order: PacketOrder;
  readonly delivery: Delivery;
  /** Whose place it is, even where no edition of it will do. */
  readonly paper: Paper | undefined;
  readonly found: Found | undefined;
  readonly content: EditionContent | undefined;
  readonly kind: PaperKind | undefined;
  readonly need: Need | undefined;
  readonly place: PlanTab['place'];
  readonly reading?: NeedReading | undefined;
  readonly title: string;
  readonly tab: number;
}

/** A tab with everything needed to lay it out. */
export function makeRow(from: RowOrder): Row {
  const { order, found, content, kind, need, place, reading } = from;
  const office = kind === undefined ? undefined : order.practice.offices[kind.from];
  const pages = pagesOf(from);
  const sealed = found?.edition.sealed === true;
  return {
    tab: {
      tab: from.tab,
      need: reading?.need,
      kind: kind?.id ?? reading?.kind ?? from.paper?.kind ?? 'other',
      paper: from.paper?.id ?? reading?.paper,
      edition: found?.edition.id,
      title: titleOf(from),
      issuedBy: found?.edition.issuer ?? issuerOf(office),
      number: found?.edition.number ?? '',
      dated: found?.edition.issued === undefined ? '' : dayInWords(found.edition.issued),
      goodThrough: goodThrough(found, reading),
      pages: pages.how === 'linked' ? pages.content.pages.length : 0,
      copies: need?.copies ?? 1,
      place,
      findings: reading?.findings ?? [],
    },
    kind,
    office,
    need,
    paper: found?.paper,
    edition: found?.edition,
    title: titleOf(from),
    pages,
    riders: [],
    beside: place === 'beside' ? originalsOf(content, from.title) : [],
    sealed,
    lapsing: reading?.state === 'lapsing',
    expected: reading === undefined ? undefined : expectedOf(reading),
  };
}

/** On sheets that strangers read the owner is "the owner", however practice speaks to them. */
function issuerOf(office: Office | undefined): string {
  return office?.sort === 'owner' ? 'the owner' : (office?.title ?? '');
}

function originalsOf(content: EditionContent | undefined, title: string): EditionContent['originals'] {
  if (content === undefined || content.originals.length === 0) throw noContent(title);
  return content.originals;
}

/** With the subject where the kind has one paper each: the lot's one cost breakdown is not "of draw 1". */
function titleOf({ title, order, paper, found, reading, kind }: RowOrder): string {
  const whose = paper?.subject ?? (kind?.each === undefined ? undefined : reading?.subject);
  const subject = order.lot.subjects.find((one) => one.id === whose);
  const revision = found?.edition.revision;
  const named = subject === undefined || title.includes(subject.title) ? title : `${title}, ${subject.title}`;
  return revision === undefined || named.includes(`revision ${revision}`) ? named : `${named}, revision ${revision}`;
}

function goodThrough(found: Found | undefined, reading: NeedReading | undefined): string {
  const through = reading?.validity?.through ?? found?.edition.goodThrough;
  if (found === undefined || through === undefined || through === 'unknown') return '';
  // No clock at all says nothing; only a rule that says so makes a paper good for good.
  if (through === 'for good') return (reading?.validity?.clocks.length ?? 0) > 0 ? 'for good' : '';
  return through === 'ended' ? 'ended' : dayInWords(through);
}

/** A day is promised to an office only where the paper is with another office already; else nobody knows one. */
function expectedOf(reading: NeedReading): string | undefined {
  if (reading.state !== 'awaited') return undefined;
  const days = reading.findings
    .flatMap(({ remedy }) => (remedy.earliest === undefined ? [] : [remedy.earliest]))
    .sort();
  return days[0] === undefined ? undefined : dayInWords(days[0]);
}

function pagesOf({ place, content, delivery, found }: RowOrder): RowPages {
  if (content === undefined || content.pages.length === 0) return { how: 'none' };
  if (place === 'inside') return { how: 'linked', content, reference: false };
  if (place === 'beside' && delivery.sealedCopy && found?.edition.sealed === true)
    return { how: 'linked', content, reference: true };
  return { how: 'none' };
}
