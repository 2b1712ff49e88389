import type { KeepRung } from '../../../core/intake/rendition-model.ts';
import { onePage } from '../make-pdf.ts';

/** One thing that can be the matter with a file, made by code, and what has to become of it. */
export interface Trouble {
  /** Finishes "a file with ...". */
  readonly what: string;
  make(): Uint8Array | Promise<Uint8Array>;
  readonly name?: string;
  readonly password?: string;
  readonly ends: Kept | Refused;
}

interface Kept {
  readonly rung: KeepRung;
  readonly pages?: number;
  /** Words that the first page must hold. */
  readonly text?: string;
  /** A sound file that looks as this one should: what was mended is compared with it, page by page. */
  readonly like?: Uint8Array;
  readonly notes?: RegExp;
  /** Why pictures of it are not compared: the original counts its own pages wrong, or PDFium draws it now so, now so. */
  readonly leaveOut?: 'original' | 'pictures';
}

interface Refused {
  readonly refused: RegExp;
  readonly asks?: 'password';
}

export const plainText = 'Septic permit 4711';

/** The sound page that most troubles are made from. */
export const sound = onePage();

/** Changes a file's bytes as text, one character a byte; a change that changes nothing is a mistake of the test. */
export function changed(
  bytes: Uint8Array,
  ...edits: readonly (readonly [from: string | RegExp, to: string])[]
): Buffer {
  let text = Buffer.from(bytes).toString('latin1');
  for (const [from, to] of edits) {
    const after = text.replace(from, to);
    if (after === text) throw new Error(`nothing to change: ${from}`);
    text = after;
  }
  return Buffer.from(text, 'latin1');
}

/** Writes the table of objects anew from where the objects stand. */
export function withTable(bytes: Uint8Array): Buffer {
  const text = Buffer.from(bytes).toString('latin1');
  const start = text.lastIndexOf('xref\n0 ');
  const body = text.slice(0, start);
  const size = Number(/\/Size (\d+)/.exec(text.slice(start))?.[1]);
  const rows = Array.from({ length: size }, (_, number) => {
    const at = number === 0 ? -1 : body.search(new RegExp(`(?<![0-9])${number} \\d+ obj`));
    return at < 0 ? '0000000000 65535 f \n' : `${String(at).padStart(10, '0')} 00000 n \n`;
  });
  const trailer = /trailer[\s\S]*?>>\s*(?=startxref)/.exec(text.slice(start))?.[0] ?? '';
  return Buffer.from(`${body}xref\n0 ${size}\n${rows.join('')}${trailer}startxref\n${start}\n%%EOF\n`, 'latin1');
}
