import { type PDFImage, PDFName, type PDFPage } from 'pdf-lib';
import type { Chance } from './chance.ts';
import { type Face, type Faces, foldFor } from './faces.ts';
import { letterStrokes } from './hand.ts';
import { black, type Colour, Ink, type Point } from './ink.ts';

export interface TextLook {
  readonly face?: Face;
  readonly size?: number;
  readonly colour?: Colour;
  readonly align?: 'left' | 'centre' | 'right';
  /** Degrees counterclockwise. */
  readonly angle?: number;
}

export interface LineLook {
  readonly colour?: Colour;
  readonly width?: number;
  readonly dash?: readonly number[];
  readonly fill?: Colour;
}

/** One page being drawn. */
export class Leaf {
  readonly page: PDFPage;
  readonly width: number;
  readonly height: number;
  readonly ink = new Ink();
  readonly #faces: Partial<Faces>;
  readonly #keys = new Map<Face, string>();

  constructor(page: PDFPage, faces: Partial<Faces>) {
    this.page = page;
    this.#faces = faces;
    this.width = page.getWidth();
    this.height = page.getHeight();
  }

  #flip([x, y]: Point): Point {
    return [x, this.height - y];
  }

  font(face: Face): NonNullable<Faces[Face]> {
    const font = this.#faces[face];
    if (font === undefined) throw new Error(`The face "${face}" was not opened for this file.`);
    return font;
  }

  widthOf(text: string, face: Face = 'sans', size = 10): number {
    return this.font(face).widthOfTextAtSize(foldFor(face, text), size);
  }

  text(at: Point, text: string, look: TextLook = {}): void {
    const { face = 'sans', size = 10, colour = black, align = 'left', angle = 0 } = look;
    const words = foldFor(face, text);
    if (words === '') return;
    const font = this.font(face);
    const back = align === 'left' ? 0 : font.widthOfTextAtSize(words, size) * (align === 'centre' ? 0.5 : 1);
    const [x, y] = this.#flip(at);
    const a = (angle * Math.PI) / 180;
    this.ink.fill(colour);
    this.ink.text(font.encodeText(words).toString(), this.#key(face), size, [
      x - back * Math.cos(a),
      y - back * Math.sin(a),
      angle,
    ]);
  }

  #key(face: Face): string {
    const known = this.#keys.get(face);
    if (known !== undefined) return known;
    const key = this.page.node.newFontDictionary(face, this.font(face).ref).toString();
    this.#keys.set(face, key);
    return key;
  }

  line(from: Point, to: Point, look: LineLook = {}): void {
    this.path([from, to], look);
  }

  path(points: readonly Point[], look: LineLook & { readonly close?: boolean } = {}): void {
    const { colour = black, width = 0.6, dash = [], fill, close = false } = look;
    if (fill !== undefined) this.ink.fill(fill);
    if (width > 0) this.ink.stroke(colour, width, dash);
    const flipped = points.map((p) => this.#flip(p));
    if (width > 0) this.ink.path(flipped, fill === undefined ? (close ? 's' : 'S') : 'b');
    else if (fill !== undefined) this.ink.path(flipped, 'f');
  }

  box(at: Point, size: Point, look: LineLook = {}): void {
    const [x, y] = at;
    const [w, h] = size;
    const corners: Point[] = [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ];
    this.path(corners, { ...look, close: true });
  }

  arc(centre: Point, radius: number, turn: readonly [number, number], look: LineLook = {}): void {
    this.ink.stroke(look.colour ?? black, look.width ?? 0.6, look.dash ?? []);
    this.ink.arc(this.#flip(centre), radius, turn[0], turn[1]);
  }

  circle(centre: Point, radius: number, look: LineLook = {}): void {
    this.arc(centre, radius, [0, 360], look);
  }

  curve(points: readonly Point[], look: LineLook = {}): void {
    this.ink.stroke(look.colour ?? black, look.width ?? 0.6, look.dash ?? []);
    this.ink.curve(points.map((p) => this.#flip(p)));
  }

  /** Hand-printed capitals: pen strokes with a little unsteadiness. Returns the width written. */
  hand(at: Point, text: string, look: { size?: number; colour?: Colour; width?: number; chance: Chance }): number {
    const { size = 10, colour = black, width = 0.9, chance } = look;
    let x = at[0];
    for (const letter of text) {
      const { strokes, advance } = letterStrokes(letter, size, chance);
      for (const stroke of strokes) {
        this.curve(
          stroke.map(([dx, dy]): Point => [x + dx + dy * 0.12, at[1] - dy]),
          { colour, width },
        );
      }
      x += advance;
    }
    return x - at[0];
  }

  /** A name signed: loops of a pen, never letters one could read. */
  signature(at: Point, chance: Chance, look: LineLook & { readonly length?: number } = {}): void {
    const { length = 110, colour = [0.1, 0.13, 0.42], width = 1 } = look;
    const [x0, y0] = at;
    const hand = {
      tall: chance.between(15, 26),
      low: chance.between(2, 6),
      step: chance.between(4, 10),
      lean: chance.between(-2, 5),
    };
    const every = 3 + Math.floor(chance.next() * 4);
    // A capital: up, round and through itself; then waves that flatten; then a stroke off to the right.
    const points: Point[] = [
      [x0 + 4, y0 - hand.tall * 0.5],
      [x0 + 8 + hand.lean, y0 - hand.tall],
      [x0 + 1, y0 - hand.tall * 0.3],
      [x0 - 3, y0 + hand.low],
      [x0 + 9, y0 - hand.tall * chance.between(0.2, 0.6)],
    ];
    let x = x0 + 12;
    for (let i = 1; x < x0 + length; i += 1) {
      const fade = 1 - (0.6 * (x - x0)) / length;
      const up = (i % every === 0 ? hand.tall * 0.9 : hand.low * 1.3) * fade * chance.between(0.6, 1.2);
      points.push([x, y0 + chance.between(-1, 1.2)], [x + hand.step * 0.5 + hand.lean * 0.4, y0 - up]);
      if (i % every === 0) points.push([x + hand.step * 0.2 - 2, y0 - up * 0.5]);
      if (i % (every + 2) === 0) points.push([x + hand.step * 0.6, y0 + hand.low * 1.6]);
      x += hand.step * chance.between(0.7, 1.3);
    }
    points.push(
      [x0 + length + 14, y0 - chance.between(-3, 9)],
      [x0 + length + chance.between(24, 46), y0 - chance.between(-5, 12)],
    );
    this.curve(points, { colour, width });
  }

  image(image: PDFImage, at: Point, size: Point): void {
    const key = this.page.node.newXObject('Im', image.ref).toString();
    const [x, y] = this.#flip([at[0], at[1] + size[1]]);
    this.ink.group(() => this.ink.raw(`${size[0]} 0 0 ${size[1]} ${x} ${y} cm ${key} Do`));
  }

  finish(): void {
    const { context } = this.page.doc;
    const ref = context.register(context.flateStream(this.ink.toString()));
    this.page.node.set(PDFName.of('Contents'), ref);
  }
}
