import type { Drawing, DrawOp, Face, FontMetrics, SheetLink, Tone } from './drawing.ts';
import { linesAtMost, linesOf } from './lines.ts';
import { leadings, rules, type SizeName, sheet, sizes } from './measures.ts';
import { facedText, plainText, widthOf } from './plain-text.ts';

export interface TextStyle {
  readonly face?: Face;
  readonly size?: SizeName;
  readonly tone?: Tone;
}

export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface RuleStyle {
  readonly width?: number;
  readonly tone?: Tone;
  readonly dash?: readonly number[];
}

/** Collects the drawing instructions of one sheet, and which characters had to be replaced on it. */
export class Pen {
  readonly metrics: FontMetrics;
  readonly replaced: Set<string>;
  readonly #ops: DrawOp[] = [];
  readonly #links: SheetLink[] = [];

  constructor(metrics: FontMetrics, replaced: Set<string> = new Set()) {
    this.metrics = metrics;
    this.replaced = replaced;
  }

  /** One line on its baseline. Returns its width. `align` 'right' ends it at x; `turn` 90 runs it upward. */
  text(
    at: { readonly x: number; readonly y: number },
    text: string,
    style: TextStyle & { readonly align?: 'left' | 'right' | 'centre'; readonly turn?: 90 } = {},
  ): number {
    const { face = 'text', size = 'text', tone = 'ink', align = 'left', turn } = style;
    const faced = facedText(plainText(text).replaceAll('\n', ' '), face, this.metrics);
    for (const character of faced.replaced) this.replaced.add(character);
    const points = sizes[size];
    const widths = faced.runs.map((run) => this.metrics.widthOf(run.text, run.face, points));
    const total = widths.reduce((sum, width) => sum + width, 0);
    let along = align === 'left' ? 0 : align === 'right' ? -total : -total / 2;
    faced.runs.forEach((run, index) => {
      const place = turn === 90 ? { x: at.x, y: at.y + along } : { x: at.x + along, y: at.y };
      this.#ops.push({
        op: 'text',
        ...place,
        face: run.face,
        size: points,
        tone,
        text: run.text,
        ...(turn && { turn }),
      });
      along += widths[index] ?? 0;
    });
    return total;
  }

  /** Lines of `text` in `width`, at most `most` of them. */
  lines(text: string, width: number, style: TextStyle & { readonly most?: number } = {}): readonly string[] {
    const line = { face: style.face ?? 'text', size: sizes[style.size ?? 'text'] };
    const lines = linesOf(text, line, { width, metrics: this.metrics });
    return linesAtMost(lines, style.most ?? lines.length, { style: line, width, metrics: this.metrics });
  }

  /** Writes lines downward from `top`; returns the y below them. */
  writeLines(
    at: { readonly x: number; readonly top: number },
    lines: readonly string[],
    style: TextStyle = {},
  ): number {
    const leading = leadings[style.size ?? 'text'];
    const drop = baselineDrop(style.size ?? 'text');
    lines.forEach((line, index) => {
      this.text({ x: at.x, y: at.top - drop - index * leading }, line, style);
    });
    return at.top - lines.length * leading;
  }

  widthOf(text: string, style: TextStyle = {}): number {
    return widthOf(plainText(text), { face: style.face ?? 'text', size: sizes[style.size ?? 'text'] }, this.metrics);
  }

  across(y: number, from: number, to: number, style: RuleStyle = {}): void {
    this.#line({ x1: from, y1: y, x2: to, y2: y }, style);
  }

  down(x: number, from: number, to: number, style: RuleStyle = {}): void {
    this.#line({ x1: x, y1: from, x2: x, y2: to }, style);
  }

  #line(ends: { x1: number; y1: number; x2: number; y2: number }, style: RuleStyle): void {
    const { width = rules.hair, tone = 'ink', dash } = style;
    this.#ops.push({ op: 'line', ...ends, width, tone, ...(dash && { dash }) });
  }

  box(
    box: Box,
    style: { readonly fill?: Tone; readonly stroke?: Tone; readonly width?: number; readonly dash?: readonly number[] },
  ): void {
    const { fill, stroke, width, dash } = style;
    this.#ops.push({
      op: 'rect',
      ...box,
      ...(fill && { fill }),
      ...(stroke && { stroke, lineWidth: width ?? rules.thin }),
      ...(dash && { dash }),
    });
  }

  shape(
    points: readonly (readonly [number, number])[],
    style: {
      readonly fill?: Tone;
      readonly stroke?: Tone;
      readonly width?: number;
      readonly open?: boolean;
      readonly dash?: readonly number[];
    },
  ): void {
    const { fill, stroke, width, open = false, dash } = style;
    this.#ops.push({
      op: 'shape',
      points,
      closed: !open,
      ...(fill && { fill }),
      ...(stroke && { stroke, lineWidth: width ?? rules.thin }),
      ...(dash && { dash }),
    });
  }

  link(box: Box, toSheet: number): void {
    this.#links.push({ ...box, toSheet });
  }

  drawing(): Drawing {
    return { width: sheet.width, height: sheet.height, ops: this.#ops, links: this.#links };
  }
}

/** From the top of a line to its baseline. */
export function baselineDrop(size: SizeName): number {
  return Math.round((leadings[size] + sizes[size] * 0.66) / 2);
}
