import type { PlanFile, PlanSheet } from '../../packet/plan-model.ts';
import type { Drawing, DrawOp } from '../../typeset/drawing.ts';

/** A plan as it crosses to a window: what the eye can't see is left behind, a thousand pages stay under a megabyte. */

/** Hundredths of a point. */
function rounded(value: number): number {
  return Math.round(value * 100) / 100;
}

type Points = readonly (readonly [number, number])[];

function extent(points: Points, axis: 0 | 1): number {
  const along = points.map((point) => point[axis]);
  return Math.max(...along) - Math.min(...along);
}

/** A small disc is drawn with far more corners than a screen shows: every third is enough (0.1 pt off at most). */
function thinned(points: Points): Points {
  const round = points.length > 24 && extent(points, 0) < 8 && extent(points, 1) < 8;
  const kept = round ? points.filter((_, n) => n % 3 === 0 || n === points.length - 1) : points;
  return kept.map(([x, y]) => [rounded(x), rounded(y)] as const);
}

function lightOp(op: DrawOp): DrawOp {
  switch (op.op) {
    case 'text':
      return { ...op, x: rounded(op.x), y: rounded(op.y) };
    case 'line':
      return { ...op, x1: rounded(op.x1), y1: rounded(op.y1), x2: rounded(op.x2), y2: rounded(op.y2) };
    case 'rect':
      return { ...op, x: rounded(op.x), y: rounded(op.y), width: rounded(op.width), height: rounded(op.height) };
    case 'shape':
      return { ...op, points: thinned(op.points) };
  }
}

function lightDrawing(drawing: Drawing): Drawing {
  return { ...drawing, ops: drawing.ops.map(lightOp) };
}

/** A paper's page without its words and clear strips; a written sheet with its drawing made light. */
function lightSheet(sheet: PlanSheet): PlanSheet {
  if (sheet.of === 'written') return { ...sheet, drawing: lightDrawing(sheet.drawing) };
  return { ...sheet, page: { ...sheet.page, facts: { ...sheet.page.facts, clearStrips: [], text: '' } } };
}

export function lightFile(file: PlanFile): PlanFile {
  return file.of === 'untouched' ? file : { ...file, sheets: file.sheets.map(lightSheet) };
}

/** Every rendition the sheets draw on, once. */
export function renditionsIn(files: readonly PlanFile[]): readonly string[] {
  const sheets = files.flatMap((file) => (file.of === 'untouched' ? [] : file.sheets));
  return [...new Set(sheets.flatMap((sheet) => (sheet.of === 'paper' ? [sheet.page.rendition] : [])))];
}
