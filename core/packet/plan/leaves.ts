import type { Drawing } from '../../typeset/drawing.ts';
import type { Margin } from '../../typeset/sheets/furniture.ts';
import { type Leaf, type LeafField, leafSheet } from '../../typeset/sheets/leaf.ts';
import { wording } from '../../typeset/wording.ts';
import { officeSorts } from '../../vocabulary/practice.ts';
import type { LeafSort } from './body.ts';
import type { PlanFrame } from './frame.ts';
import type { Row } from './row.ts';

export interface LeafOrder {
  readonly sort: LeafSort;
  readonly row: Row;
  readonly margin: Margin;
  readonly beside: readonly BesideFile[];
  /** "4–12", the numbers of its sheets. */
  readonly sheets: string;
}

/** A file that travels untouched, as the sheets name it. */
export interface BesideFile {
  readonly name: string;
  readonly sha256: string;
}

/** First 16 hex digits of a SHA-256, in fours: enough to compare by eye. */
export function shortHash(sha256: string): string {
  return (sha256.slice(0, 16).match(/.{1,4}/g) ?? []).join(' ');
}

/** Draws the divider of a tab, or the out card of a missing paper. */
export function drawLeaf(frame: PlanFrame, order: LeafOrder): Drawing {
  const { row, sort, margin } = order;
  const officeSort = row.office?.sort ?? 'owner';
  const leaf: Leaf = {
    margin,
    tab: row.tab.tab,
    title: row.tab.title,
    out: sort === 'out card',
    edge: { position: officeSorts.indexOf(officeSort), of: officeSorts.length, word: officeSort },
    fields: sort === 'out card' ? outFields(row) : dividerFields(order),
    says: saysOf(order),
    findings: frame.draft ? findingsOf(row, sort) : [],
  };
  return leafSheet(leaf, frame.metrics, frame.replaced);
}

function dividerFields({ row, sheets }: LeafOrder): readonly LeafField[] {
  const { tab } = row;
  const words = wording.leaf;
  return [
    { label: words.issued, value: tab.issuedBy },
    { label: words.number, value: tab.number, mono: true },
    { label: words.dated, value: tab.dated },
    { label: words.good, value: tab.goodThrough },
    ...(sheets === '' ? [] : [{ label: words.sheets, value: sheets, mono: true }]),
  ];
}

function outFields(row: Row): readonly LeafField[] {
  const words = wording.leaf;
  const remedy = row.tab.findings.find((finding) => finding.sort === 'missing') ?? row.tab.findings[0];
  return [
    { label: words.from, value: row.tab.issuedBy },
    { label: words.expected, value: row.expected ?? words.unknown },
    ...(remedy === undefined ? [] : [{ label: words.remedy, value: remedy.remedy.say }]),
  ];
}

function saysOf({ row, beside }: LeafOrder): readonly string[] {
  const { tab } = row;
  if (tab.seeTab !== undefined) return [`This paper stands under tab ${tab.seeTab}; its sheets go in once.`];
  if (tab.place === 'by hand') return ['The paper itself is carried by hand and laid in here.'];
  if (tab.place !== 'beside') return [];
  const files = beside.map(({ name, sha256 }) => `${name}  (SHA-256 ${shortHash(sha256)} …)`);
  const why = row.sealed ? 'This paper carries a digital signature. It' : 'This paper';
  const travels = `${why} travels beside this packet, untouched: ${files.join('; ')}`;
  const copy =
    'REFERENCE COPY: the sheets that follow only show what the signed file shows. They are not signed; a change of the file is seen only in the file itself.';
  return row.pages.how === 'linked' ? [travels, copy] : [travels];
}

/** The card of a missing paper says already that it is missing. */
function findingsOf(row: Row, sort: LeafSort): Leaf['findings'] {
  const said =
    sort === 'out card' ? row.tab.findings.filter((finding) => finding.sort !== 'missing') : row.tab.findings;
  return said.map(({ weight, say, remedy }) => ({ bar: weight, say, remedy: remedy.say }));
}
