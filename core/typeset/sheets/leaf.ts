import type { Drawing, FontMetrics } from '../drawing.ts';
import { type Bar, barTone, drawBar } from '../marks.ts';
import { frame, leadings, rules, sheet } from '../measures.ts';
import { Pen, type TextStyle } from '../pen.ts';
import { wording } from '../wording.ts';
import { drawMargin, type Margin } from './furniture.ts';

export interface LeafField {
  readonly label: string;
  readonly value: string;
  readonly mono?: boolean;
}

/** A divider, or the card that keeps the place of a paper that is not here. */
export interface Leaf {
  readonly margin: Margin;
  readonly tab: number;
  readonly title: string;
  readonly out: boolean;
  /** Position of the tab on the edge: which of how many kinds of office, and the word on it. */
  readonly edge: { readonly position: number; readonly of: number; readonly word: string };
  readonly fields: readonly LeafField[];
  /** Sentences: "The paper itself is carried by hand.", "The sealed file travels beside ...". */
  readonly says: readonly string[];
  /** Only where the packet is the owner's draft. */
  readonly findings: readonly { readonly bar: Bar; readonly say: string; readonly remedy: string }[];
}

const tabWidth = 36;
const right = sheet.width - tabWidth - 24;

/** One leaf with its tab at the right edge. */
export function leafSheet(leaf: Leaf, metrics: FontMetrics, replaced: Set<string>): Drawing {
  const pen = new Pen(metrics, replaced);
  drawEdge(pen, leaf);
  let top = frame.top - 96;
  const x = leaf.out ? frame.left + 24 : frame.left;
  if (leaf.out) {
    pen.text({ x, y: top + 32 }, wording.leaf.out, { face: 'bold', size: 'head' });
    pen.text({ x: x + 48, y: top + 32 }, wording.leaf.outSay, { tone: 'pencil' });
  } else {
    pen.text({ x, y: top + 32 }, `${wording.leaf.tab} ${leaf.tab}`, { face: 'mono', size: 'head', tone: 'pencil' });
  }
  const width = right - x - (leaf.out ? 24 : 0);
  top = pen.writeLines({ x, top }, pen.lines(leaf.title, width, { face: 'slab', size: 'title', most: 5 }), {
    face: 'slab',
    size: 'title',
  });
  top = drawFields(pen, leaf, { x, top: top - 24, width });
  for (const say of leaf.says) {
    const lines = pen.lines(say, width, { most: 6 });
    top = pen.writeLines({ x, top: top - 16 }, lines);
  }
  if (leaf.out) {
    const bottom = top - 32;
    const box = { x: frame.left, y: bottom, width: right - frame.left, height: frame.top - 24 - bottom };
    pen.box(box, { stroke: 'ink', width: rules.firm, dash: [8, 6] });
    top = bottom;
  }
  drawFindings(pen, leaf, { x: frame.left, top: top - 40, width: right - frame.left });
  drawMargin(pen, leaf.margin);
  return pen.drawing();
}

/** The tab: its place down the edge belongs to the kind of office; the other places are faint. */
function drawEdge(pen: Pen, leaf: Leaf): void {
  const { position, of, word } = leaf.edge;
  const height = (frame.top - frame.bottom) / of;
  const left = sheet.width - tabWidth;
  for (let n = 1; n < of; n += 1) pen.across(frame.top - n * height, sheet.width - 8, sheet.width, { tone: 'pencil' });
  const top = frame.top - position * height;
  const y = top - height;
  pen.shape(
    [
      [sheet.width, top],
      [left + 4, top],
      [left, top - 4],
      [left, y + 4],
      [left + 4, y],
      [sheet.width, y],
    ],
    {
      stroke: 'ink',
      width: rules.thin,
      open: true,
      ...(leaf.out ? { dash: [4, 3] } : { fill: 'card' as const }),
    },
  );
  pen.text({ x: left + 16, y: y + height / 2 + 6 }, String(leaf.tab), { face: 'mono', size: 'head', align: 'centre' });
  const lines = pen.lines(word, tabWidth - 4, { size: 'small', most: 2 });
  lines.forEach((line, n) => {
    pen.text({ x: left + 17, y: y + height / 2 - 8 - n * 9 }, line, { size: 'small', align: 'centre' });
  });
}

function drawFields(pen: Pen, leaf: Leaf, at: { x: number; top: number; width: number }): number {
  const { x, width } = at;
  let { top } = at;
  pen.across(top, x, x + width, { width: rules.firm });
  for (const field of leaf.fields) {
    const style: TextStyle = field.mono === true ? { face: 'mono' } : {};
    const lines = pen.lines(field.value === '' ? '—' : field.value, width - 120, { ...style, most: 6 });
    const height = Math.max(1, lines.length) * leadings.text + 10;
    pen.text({ x, y: top - 15 }, field.label, { size: 'small', tone: 'pencil' });
    pen.writeLines({ x: x + 112, top: top - 5 }, lines, style);
    top -= height;
    pen.across(top, x, x + width, { tone: 'pencil' });
  }
  return top;
}

function drawFindings(pen: Pen, leaf: Leaf, at: { x: number; top: number; width: number }): void {
  if (leaf.findings.length === 0 || at.top < frame.bottom + 64) return;
  let top = pen.writeLines({ x: at.x, top: at.top }, [wording.leaf.notes], { size: 'small', tone: 'pencil' }) - 4;
  const width = at.width - 16;
  for (const finding of leaf.findings) {
    const lines = [...pen.lines(finding.say, width), ...pen.lines(finding.remedy, width)];
    const height = leadings.small + lines.length * leadings.text;
    if (top - height < frame.bottom) return;
    drawBar(pen, finding.bar, { x: at.x, top, bottom: top - height });
    const word = { face: 'bold', size: 'small', tone: barTone(finding.bar) } as const;
    const below = pen.writeLines({ x: at.x + 16, top }, [finding.bar.toUpperCase()], word);
    pen.writeLines({ x: at.x + 16, top: below }, lines);
    top -= height + 10;
  }
}
