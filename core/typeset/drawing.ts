/** Faces the program writes with. `slab` for paper titles, `mono` for permit and parcel numbers. */
export type Face = 'text' | 'bold' | 'slab' | 'mono';

/** Colours by their meaning; the values are the look's. */
export type Tone = 'ink' | 'pencil' | 'violet' | 'red' | 'ochre' | 'green' | 'card' | 'page';

/** Points, origin at the lower left of the sheet. Text stands on its baseline. */
export type DrawOp =
  | {
      readonly op: 'text';
      readonly x: number;
      readonly y: number;
      readonly face: Face;
      readonly size: number;
      readonly tone: Tone;
      readonly text: string;
      /** 90: runs upward, turned a quarter left about (x, y). */
      readonly turn?: 0 | 90 | undefined;
    }
  | {
      readonly op: 'line';
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly width: number;
      readonly tone: Tone;
      readonly dash?: readonly number[] | undefined;
    }
  | {
      readonly op: 'rect';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly fill?: Tone | undefined;
      readonly stroke?: Tone | undefined;
      readonly lineWidth?: number | undefined;
      readonly dash?: readonly number[] | undefined;
    }
  | {
      /** A run of straight edges through the points (marks: discs, triangles, ticks). */
      readonly op: 'shape';
      readonly points: readonly (readonly [number, number])[];
      readonly closed: boolean;
      readonly fill?: Tone | undefined;
      readonly stroke?: Tone | undefined;
      readonly lineWidth?: number | undefined;
      readonly dash?: readonly number[] | undefined;
    };

/** A place on a sheet that leads to another sheet of the same file (0-based index in the file). */
export interface SheetLink {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
  readonly toSheet: number;
}

/** One sheet the program writes, ready to be drawn by any hand (PDF, window, test). */
export interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly ops: readonly DrawOp[];
  readonly links: readonly SheetLink[];
}

/** What typesetting needs to know of the fonts; read once by a host, so that this room stays pure. */
export interface FontMetrics {
  /** Width of NFC text in points. */
  widthOf(text: string, face: Face, size: number): number;
  /** Characters the face has no glyph for, each once. */
  missing(text: string, face: Face): readonly string[];
}
