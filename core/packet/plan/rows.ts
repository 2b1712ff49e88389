import { dayInWords } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { NeedReading } from '../../vocabulary/finding.ts';
import type { Edition, EditionId, Paper } from '../../vocabulary/lot.ts';
import type { Delivery, Errand, Need, Office, PaperKind } from '../../vocabulary/practice.ts';
import type { EditionContent, PacketOrder, PlanTab } from '../plan-model.ts';
import type { Row, RowPages, Rows } from './row.ts';

interface Found {
  readonly paper: Paper;
  readonly edition: Edition;
}

/** The rows of an errand's packet: its needs in practice order, each paper's pages once. */
export function errandRows(order: PacketOrder, errand: Errand, needs: readonly NeedReading[]): Rows {
  const notes: string[] = [];
  const rows: Row[] = [];
  for (const reading of needs) {
    const need = errand.needs.find((one) => one.id === reading.need);
    if (need?.use === 'bring home') continue;
    const row = needRow({ order, errand, reading, need, tab: rows.length + 1 }, notes);
    if (row !== undefined) rows.push(once(row, rows));
  }
  return { rows, notes };
}

interface NeedRowOrder {
  readonly order: PacketOrder;
  readonly errand: Errand;
  readonly reading: NeedReading;
  readonly need: Need | undefined;
  readonly tab: number;
}

function needRow(from: NeedRowOrder, notes: string[]): Row | undefined {
  const { order, reading, need, tab, errand } = from;
  const found = reading.edition === undefined ? undefined : findEdition(order, reading.edition);
  const kindId = found?.paper.kind ?? reading.kind;
  const kind = order.practice.papers[kindId];
  if (kind?.private === true && need?.kinds.includes(kindId) !== true) {
    notes.push(`"${kind.title}" is private and this errand doesn't ask for it by name: it was left out.`);
    return undefined;
  }
  const title = found?.paper.title ?? kind?.title ?? kindId;
  const content = found === undefined ? undefined : contentOf(order, found);
  const usable = found !== undefined && isUsable(found, content);
  if (found !== undefined && !usable) notes.push(unusableNote(found));
  if (!usable) {
    if (need?.optional === true) return undefined;
    if (reading.applies === 'unknown') {
      notes.push(`"${kind?.title ?? kindId}" is not in hand. Whether it is asked for at all is not known yet.`);
      return undefined;
    }
  }
  const place = placeOf(found, {
    usable,
    content,
    need,
    delivery: errand.deliver,
    override: order.override !== undefined,
  });
  const reason = place === 'by hand' ? byHandNote(title, { found, need, delivery: errand.deliver }) : undefined;
  if (reason !== undefined) notes.push(reason);
  return makeRow({
    order,
    delivery: errand.deliver,
    paper: found?.paper,
    found: usable ? found : undefined,
    content,
    kind,
    need,
    place,
    reading,
    title,
    tab,
  });
}

/** The rows of a packet of the owner's own choosing, in the owner's order. */
export function ownChoiceRows(order: PacketOrder, editions: readonly EditionId[], delivery: Delivery): Rows {
  const notes: string[] = [];
  const rows: Row[] = [];
  for (const id of editions) {
    const found = findEdition(order, id);
    const kind = order.practice.papers[found.paper.kind];
    const content = contentOf(order, found);
    const usable = isUsable(found, content);
    if (!usable) notes.push(unusableNote(found));
    if (kind?.private === true)
      notes.push(`"${found.paper.title}" is private. It goes in because you chose it yourself.`);
    const place = placeOf(found, {
      usable,
      content,
      need: undefined,
      delivery,
      override: order.override !== undefined,
    });
    const row = makeRow({
      order,
      delivery,
      paper: found.paper,
      found: usable ? found : undefined,
      content,
      kind,
      need: undefined,
      place,
      title: found.paper.title,
      tab: rows.length + 1,
    });
    rows.push(once(row, rows));
  }
  return { rows, notes };
}

/** @throws LotfileError 'not found' where pages that should be there were not handed over. */
function contentOf(order: PacketOrder, { paper, edition }: Found): EditionContent | undefined {
  const content = order.contents[edition.id];
  if (content === undefined && edition.pages > 0 && edition.readable) throw noContent(paper.title);
  return content;
}

/** What was purged, or can't be read, would be an empty tab: it counts as missing. */
function isUsable({ edition }: Found, content: EditionContent | undefined): boolean {
  if (edition.physicalOnly) return true;
  return edition.readable && content !== undefined && content.pages.length + content.originals.length > 0;
}

function unusableNote({ paper, edition }: Found): string {
  const why = edition.readable ? 'has no pages in the lot folder' : "can't be read";
  return `"${paper.title}" ${why}: it can't go in. Keep it again from a good copy.`;
}

function noContent(title: string): LotfileError {
  return new LotfileError('not found', `The pages of "${title}" are not in the lot folder.`, {
    about: title,
    next: 'Keep the paper again from its file, then assemble the packet.',
  });
}

function findEdition(order: PacketOrder, id: EditionId): Found {
  for (const paper of order.lot.papers) {
    const edition = paper.editions.find((one) => one.id === id);
    if (edition !== undefined) return { paper, edition };
  }
  throw new LotfileError('not found', 'A paper chosen for this packet is no longer in the lot.', {
    next: 'Look at the papers again and choose anew.',
  });
}

interface PlaceOrder {
  readonly usable: boolean;
  readonly content: EditionContent | undefined;
  readonly need: Need | undefined;
  readonly delivery: Delivery;
  readonly override: boolean;
}

const onScreen = (delivery: Delivery): boolean => delivery.way === 'upload' || delivery.way === 'e-mail';

function placeOf(found: Found | undefined, by: PlaceOrder): PlanTab['place'] {
  if (found === undefined || !by.usable) return by.override ? 'to follow' : 'missing';
  if (found.edition.physicalOnly) return 'by hand';
  if (by.need?.use === 'show' && (by.delivery.way === 'counter' || by.delivery.way === 'lender')) return 'by hand';
  if (by.need?.form === 'paper' && onScreen(by.delivery)) return 'by hand';
  // A file that gave no pages can only go as it is.
  if (found.edition.sealed || by.delivery.untouched || by.content?.pages.length === 0) return 'beside';
  return 'inside';
}

function byHandNote(
  title: string,
  by: { readonly found: Found | undefined; readonly need: Need | undefined; readonly delivery: Delivery },
): string | undefined {
  if (by.found?.edition.physicalOnly === true) return `"${title}" exists on paper only: carry it yourself.`;
  if (by.need?.use === 'show') return undefined;
  return `"${title}" is wanted on paper: it can't go with the files.`;
}

interface RowOrder {
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

function makeRow(from: RowOrder): Row {
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
    pages,
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

function titleOf({ title, order, paper, found, reading }: RowOrder): string {
  const subject = order.lot.subjects.find((one) => one.id === (paper?.subject ?? reading?.subject));
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

function expectedOf(reading: NeedReading): string | undefined {
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

/** An edition that already stands under an earlier tab goes in once: this row points there. */
function once(row: Row, earlier: readonly Row[]): Row {
  const first = earlier.find((one) => one.edition !== undefined && one.edition.id === row.edition?.id);
  if (first === undefined) return row;
  const tab = { ...row.tab, place: first.tab.place, pages: 0, seeTab: first.tab.tab };
  return { ...row, tab, pages: { how: 'none' }, beside: [] };
}
