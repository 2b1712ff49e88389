import type { Book } from './book.ts';
import { Chance } from './chance.ts';
import type { Face } from './faces.ts';
import type { Point } from './ink.ts';
import { black, type Colour, grey } from './ink.ts';
import type { Leaf } from './leaf.ts';

/** How an office's machine sets its papers. */
export interface HouseStyle {
  readonly body: Face;
  readonly bold: Face;
  readonly size: number;
  readonly margin: number;
  readonly ink: Colour;
}

export interface TableLook {
  readonly widths: readonly number[];
  readonly align?: readonly ('left' | 'right' | 'centre')[];
  readonly head?: boolean;
  readonly size?: number;
  readonly rule?: 'grid' | 'lines';
  /** Cells from the second row on are written by hand. */
  readonly handFrom?: number;
}

/** Sets running text down the page and opens new pages as needed. */
export class Flow {
  readonly book: Book;
  readonly style: HouseStyle;
  readonly chance: Chance;
  readonly #size: readonly [number, number];
  leaf: Leaf;
  y: number;

  constructor(book: Book, style: HouseStyle, size: readonly [number, number] = [612, 792]) {
    this.book = book;
    this.style = style;
    this.chance = new Chance(book.look.title);
    this.#size = size;
    this.leaf = book.leaf(size);
    this.y = style.margin;
  }

  get width(): number {
    return this.leaf.width - 2 * this.style.margin;
  }

  get left(): number {
    return this.style.margin;
  }

  get right(): number {
    return this.leaf.width - this.style.margin;
  }

  newLeaf(): this {
    this.leaf = this.book.leaf(this.#size);
    this.y = this.style.margin;
    return this;
  }

  room(height: number): this {
    if (this.y + height > this.leaf.height - this.style.margin) this.newLeaf();
    return this;
  }

  gap(height: number): this {
    this.y += height;
    return this;
  }

  rule(width = 0.7, colour: Colour = this.style.ink): this {
    this.leaf.line([this.left, this.y], [this.right, this.y], { width, colour });
    this.y += 4;
    return this;
  }

  wrap(text: string, width: number, face: Face, size: number): string[] {
    const lines: string[] = [];
    for (const part of text.split('\n')) {
      let line = '';
      for (const word of part.split(' ')) {
        const longer = line === '' ? word : `${line} ${word}`;
        if (line !== '' && this.leaf.widthOf(longer, face, size) > width) {
          lines.push(line);
          line = word;
        } else line = longer;
      }
      lines.push(line);
    }
    return lines;
  }

  para(
    text: string,
    look: {
      bold?: boolean;
      face?: Face;
      size?: number;
      align?: 'left' | 'centre';
      indent?: number;
      colour?: Colour;
    } = {},
  ): this {
    const face = look.face ?? (look.bold === true ? this.style.bold : this.style.body);
    const size = look.size ?? this.style.size;
    const indent = look.indent ?? 0;
    for (const line of this.wrap(text, this.width - indent, face, size)) {
      this.room(size * 1.35);
      this.y += size * 1.32;
      const x = look.align === 'centre' ? this.leaf.width / 2 : this.left + indent;
      this.leaf.text([x, this.y], line, { face, size, align: look.align ?? 'left', colour: look.colour ?? black });
    }
    this.y += size * 0.5;
    return this;
  }

  heading(text: string, size = this.style.size + 1.5): this {
    return this.gap(4).para(text, { bold: true, size, colour: this.style.ink });
  }

  /** Label and value, as typed on a letter or certificate. */
  pairs(rows: readonly (readonly [string, string])[], labelWidth = 150): this {
    const { size, body, bold } = this.style;
    for (const [label, value] of rows) {
      const lines = this.wrap(value, this.width - labelWidth, bold, size);
      this.room(size * 1.5 * lines.length);
      lines.forEach((line, i) => {
        this.y += size * 1.38;
        if (i === 0) this.leaf.text([this.left, this.y], label, { face: body, size, colour: grey });
        this.leaf.text([this.left + labelWidth, this.y], line, { face: bold, size });
      });
      this.y += size * 0.28;
    }
    this.y += 5;
    return this;
  }

  /** A row of boxed fields, each with a small caption: shares of the width, caption, value. */
  fields(cells: readonly (readonly [number, string, string])[], look: { hand?: boolean; height?: number } = {}): this {
    const height = look.height ?? 30;
    this.room(height);
    const total = cells.reduce((sum, [share]) => sum + share, 0);
    let x = this.left;
    for (const [share, caption, value] of cells) {
      const w = (this.width * share) / total;
      this.leaf.box([x, this.y], [w, height], { width: 0.6, colour: this.style.ink });
      this.leaf.text([x + 3, this.y + 8], caption, { face: this.style.body, size: 6.3, colour: grey });
      this.#fill([x + 5, this.y + height - 7], value, { hand: look.hand === true, width: w - 10 });
      x += w;
    }
    this.y += height;
    return this;
  }

  #fill(at: Point, value: string, look: { hand: boolean; width: number }): void {
    if (look.hand) {
      this.leaf.hand(at, value, { size: 9, colour: [0.12, 0.16, 0.45], chance: this.chance });
      return;
    }
    let size = this.style.size;
    while (size > 6 && this.leaf.widthOf(value, this.style.bold, size) > look.width) size -= 0.5;
    this.leaf.text(at, value, { face: this.style.bold, size });
  }

  table(rows: readonly (readonly string[])[], look: TableLook): this {
    const { head = true, rule = 'grid', size = this.style.size - 0.5 } = look;
    const total = look.widths.reduce((a, b) => a + b, 0);
    rows.forEach((row, r) => {
      const widths = look.widths.map((w) => (w / total) * this.width);
      const isHead = head && r === 0;
      const face = isHead ? this.style.bold : this.style.body;
      const cells = row.map((cell, c) => this.wrap(cell, (widths[c] ?? 40) - 8, face, size));
      const height = Math.max(...cells.map((c) => c.length)) * size * 1.25 + 6;
      this.room(height);
      let x = this.left;
      cells.forEach((lines, c) => {
        const w = widths[c] ?? 40;
        if (rule === 'grid') {
          const shade = isHead ? { fill: [0.92, 0.92, 0.9] as const } : {};
          this.leaf.box([x, this.y], [w, height], { width: 0.5, colour: this.style.ink, ...shade });
        }
        lines.forEach((line, i) => {
          const align = look.align?.[c] ?? 'left';
          const at: Point = [
            align === 'right' ? x + w - 4 : align === 'centre' ? x + w / 2 : x + 4,
            this.y + 3 + size * (0.85 + i * 1.25),
          ];
          if (look.handFrom !== undefined && !isHead && c >= look.handFrom)
            this.leaf.hand([x + 6, at[1]], line, { size: size * 0.9, colour: [0.12, 0.16, 0.45], chance: this.chance });
          else this.leaf.text(at, line, { face, size, align });
        });
        x += w;
      });
      this.y += height;
      if (rule === 'lines') this.leaf.line([this.left, this.y], [this.right, this.y], { width: isHead ? 1 : 0.35 });
    });
    this.y += 8;
    return this;
  }

  tick(text: string, on: boolean, indent = 0): this {
    const { size, body } = this.style;
    const x = this.left + indent;
    const lines = this.wrap(text, this.width - indent - 18, body, size);
    this.room(size * 1.4 * lines.length);
    this.leaf.box([x, this.y + size * 0.35], [size * 0.85, size * 0.85], { width: 0.7 });
    if (on) {
      const top = this.y + size * 0.3;
      this.leaf.path(
        [
          [x + 1, top + size * 0.5],
          [x + size * 0.4, top + size * 0.85],
          [x + size, top - 1],
        ],
        { width: 1.1, colour: [0.1, 0.13, 0.42] },
      );
    }
    for (const line of lines) {
      this.y += size * 1.3;
      this.leaf.text([x + 16, this.y - size * 0.15], line, { face: body, size });
    }
    this.y += size * 0.3;
    return this;
  }

  /** A pen signature over a ruled line with name, office and date. */
  signed(name: string, role: string, date: string, x = this.left): this {
    const { size, body } = this.style;
    this.room(62);
    this.y += 34;
    this.leaf.signature([x + 8, this.y - 8], new Chance(`${name}${role}`), { length: 60 + name.length * 3 });
    this.leaf.line([x, this.y], [x + 230, this.y], { width: 0.6 });
    this.leaf.text([x, this.y + size + 1], `${name}, ${role}`, { face: body, size: size - 0.5 });
    if (date !== '') {
      this.leaf.hand([x + 160, this.y - 4], date, { size: 8, colour: [0.1, 0.13, 0.42], chance: this.chance });
    }
    this.y += size * 2.2;
    return this;
  }

  /** An office's rubber stamp, a little crooked. */
  rubber(at: Point, lines: readonly string[], look: { colour?: Colour; angle?: number; size?: number } = {}): this {
    const { colour = [0.2, 0.25, 0.6], angle = 4, size = 11 } = look;
    const width = Math.max(...lines.map((l) => this.leaf.widthOf(l, this.style.bold, size))) + 16;
    const height = lines.length * size * 1.3 + 9;
    const a = (angle * Math.PI) / 180;
    const turn = (x: number, y: number): Point => [
      at[0] + x * Math.cos(a) + y * Math.sin(a),
      at[1] - x * Math.sin(a) + y * Math.cos(a),
    ];
    for (const inset of [0, 2.5]) {
      this.leaf.path(
        [
          turn(inset, inset),
          turn(width - inset, inset),
          turn(width - inset, height - inset),
          turn(inset, height - inset),
        ],
        { colour, width: inset === 0 ? 1.4 : 0.5, close: true },
      );
    }
    lines.forEach((line, i) => {
      this.leaf.text(turn(width / 2, 4 + (i + 1) * size * 1.22), line, {
        face: this.style.bold,
        size,
        colour,
        align: 'centre',
        angle,
      });
    });
    return this;
  }

  /** A small line at the foot of every page. */
  foot(text: string): this {
    this.book.leaves.forEach((leaf, i, all) => {
      leaf.text([this.left, leaf.height - 26], text, { face: this.style.body, size: 7, colour: grey });
      const count = `Page ${i + 1} of ${all.length}`;
      leaf.text([this.right, leaf.height - 26], count, {
        face: this.style.body,
        size: 7,
        colour: grey,
        align: 'right',
      });
    });
    return this;
  }
}
