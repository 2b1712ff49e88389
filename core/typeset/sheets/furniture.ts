import { frame, rules } from '../measures.ts';
import type { Pen } from '../pen.ts';
import { wording } from '../wording.ts';

/** What stands in the margin of a sheet: which packet, where in it, and whether it is a draft. */
export interface Margin {
  readonly code: string;
  /** "14 of 92", "ii". */
  readonly position: string;
  readonly tabs: number;
  readonly tab?: number | undefined;
  readonly draft: boolean;
}

/** The margin line at the foot, with one segment per tab, and DRAFT up the left side where it is one. */
export function drawMargin(pen: Pen, margin: Margin): void {
  const tab = margin.tab === undefined ? [] : [`tab ${margin.tab}`];
  const line = [margin.code, ...tab, margin.position].join(' · ');
  pen.text({ x: frame.left, y: 28 }, line, { size: 'small', tone: 'pencil' });
  drawSegments(pen, margin);
  if (margin.draft) drawDraft(pen);
}

const barWidth = 160;
const mostSegments = 48;

function drawSegments(pen: Pen, { tabs, tab }: Margin): void {
  if (tabs === 0) return;
  const left = frame.right - barWidth;
  const y = 28.5;
  if (tabs > mostSegments) {
    pen.box({ x: left, y, width: barWidth, height: 4 }, { stroke: 'pencil', width: rules.hair });
    if (tab !== undefined) {
      const width = Math.max(2, barWidth / tabs);
      pen.box(
        { x: left + ((tab - 1) * (barWidth - width)) / Math.max(1, tabs - 1), y, width, height: 4 },
        { fill: 'violet' },
      );
    }
    return;
  }
  const step = Math.min(16, barWidth / tabs);
  const start = frame.right - step * tabs;
  for (let n = 0; n < tabs; n += 1) {
    const box = { x: start + n * step, y, width: step - 1.5, height: 4 };
    pen.box(box, n + 1 === tab ? { fill: 'violet' } : { stroke: 'pencil', width: rules.hair });
  }
}

/** DRAFT at both ends of the left margin, never across the sheet. */
function drawDraft(pen: Pen): void {
  const word = { face: 'bold', size: 'head', tone: 'red', turn: 90 } as const;
  pen.down(42, frame.top, frame.bottom, { width: rules.thin, tone: 'red', dash: [4, 3] });
  const length = pen.text({ x: 34, y: frame.bottom }, wording.draft.word, word);
  pen.text({ x: 34, y: frame.bottom + length + 8 }, wording.draft.say, { size: 'small', tone: 'red', turn: 90 });
  pen.text({ x: 34, y: frame.top }, wording.draft.word, { ...word, align: 'right' });
}
