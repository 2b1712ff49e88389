import type { Drawing, FontMetrics } from '../drawing.ts';
import { flowPieces, pensFor } from '../flow.ts';
import { frame } from '../measures.ts';
import { drawMargin, type Margin } from './furniture.ts';
import { type PaperBlock, paperPieces } from './paper-blocks.ts';
import {
  drawOwnWord,
  drawPaperHead,
  drawRunningHead,
  drawStrip,
  type PaperHead,
  stripHeight,
  type TitleStrip,
} from './paper-frame.ts';

/** A paper the program writes by itself: a letter, a list, a sheet for the site. */
export interface WrittenPaper {
  readonly head: PaperHead;
  readonly strip: TitleStrip;
  readonly blocks: readonly PaperBlock[];
  /** DRAFT in the margin: something in it is not settled yet. */
  readonly draft: boolean;
}

/** "CODE · 2 of 3": written papers have no tabs. */
export function paperMargin(code: string, at: { readonly sheet: number; readonly of: number }, draft: boolean): Margin {
  return { code, position: `${at.sheet + 1} of ${at.of}`, tabs: 0, draft };
}

/** Lays a written paper out on as many letter sheets as it needs, its title block at the foot of the first. */
export function writtenPaper(paper: WrittenPaper, metrics: FontMetrics, replaced: Set<string>): readonly Drawing[] {
  const { penOf, all } = pensFor(metrics, replaced);
  const first = drawPaperHead(penOf(0), paper.head);
  const next = frame.top - (paper.head.own ? 60 : 28);
  const foot = frame.bottom + stripHeight(penOf(0), paper.strip) + 12;
  const width = frame.right - frame.left;
  const pieces = paper.blocks.flatMap((block) => paperPieces(block, width, penOf(0)));
  const column = {
    x: frame.left,
    width,
    bottom: frame.bottom,
    top: (sheet: number) => (sheet === 0 ? first : next),
    foot: (sheet: number) => (sheet === 0 ? foot : frame.bottom),
  };
  const count = flowPieces(pieces, column, penOf);
  all().forEach((pen, sheet) => {
    if (sheet === 0) drawStrip(pen, paper.strip);
    else drawRunningHead(pen, paper.head);
    drawMargin(pen, paperMargin(paper.strip.code, { sheet, of: count }, paper.draft));
    drawOwnWord(pen);
  });
  return all().map((pen) => pen.drawing());
}
