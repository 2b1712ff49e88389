import type { PlanFile, PlanSheet } from '../../packet/plan-model.ts';
import type { Drawing, DrawOp } from '../../typeset/drawing.ts';

/** A plan as it crosses to a window: what the eye can't see is left behind, a thousand pages stay under a megabyte. */

/** Hundredths of a point. */
function rounded(value: number): number {
  return Math.round(value * 100) / 100;
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
      return { ...op, points: op.points.map(([x, y]) => [rounded(x), rounded(y)] as const) };
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
