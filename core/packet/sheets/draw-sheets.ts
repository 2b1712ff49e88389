import { PDFDocument, type PDFFont, PDFName, type PDFPage } from 'pdf-lib';
import type { Drawing, Face } from '../../typeset/drawing.ts';
import type { StampFace } from '../link-order.ts';
import { contentOf } from './content.ts';
import { features, sheetEngine } from './encode-text.ts';
import { type Fonts, faces } from './fonts.ts';

/** Sheets drawn to one PDF, and the face in it that stamps can be set in. */
export interface DrawnSheets {
  readonly bytes: Uint8Array;
  readonly stampFace: Omit<StampFace, 'source'>;
}

/** What a stamp may be written with: printable ASCII and the middle dot. */
const stampCharacters: readonly string[] = [...Array.from({ length: 95 }, (_, n) => String.fromCodePoint(32 + n)), '·'];

/**
 * Draws sheets to a PDF in the regular dialect (classic cross-reference table, no object streams),
 * with subset fonts. No dates and no random ids: the same drawings give the same bytes.
 * Links between sheets are not written here; the linker sets them in the finished file.
 */
export async function drawSheets(drawings: readonly Drawing[], fonts: Fonts): Promise<DrawnSheets> {
  const document = await PDFDocument.create({ updateMetadata: false });
  document.registerFontkit(sheetEngine);
  const embedded = new Map<Face, PDFFont>();
  for (const face of facesIn(drawings)) {
    embedded.set(face, await document.embedFont(fonts.bytesOf(face), { subset: true, features }));
  }
  const fontOf = (face: Face): PDFFont => {
    const font = embedded.get(face);
    if (font === undefined) throw new Error(`The face "${face}" was not embedded.`);
    return font;
  };
  const stampFace = stampFaceOf(fontOf('text'), fonts);
  for (const drawing of drawings) {
    const page = document.addPage([drawing.width, drawing.height]);
    setContent(page, drawing, fontOf);
  }
  const bytes = await document.save({ useObjectStreams: false, objectsPerTick: Number.POSITIVE_INFINITY });
  return { bytes, stampFace };
}

/** A drawing of one sheet as a PDF of its own, e.g. the errand sheet that stays out of the packet. */
export async function writeErrandSheetPdf(drawings: readonly Drawing[], fonts: Fonts): Promise<Uint8Array> {
  return (await drawSheets(drawings, fonts)).bytes;
}

function facesIn(drawings: readonly Drawing[]): readonly Face[] {
  const used = new Set<Face>(['text']);
  for (const drawing of drawings) for (const op of drawing.ops) if (op.op === 'text') used.add(op.face);
  return faces.filter((face) => used.has(face));
}

function setContent(page: PDFPage, drawing: Drawing, fontOf: (face: Face) => PDFFont): void {
  const names = new Map<Face, string>();
  const { content } = contentOf(drawing, (face, text) => {
    if (!names.has(face)) {
      names.set(face, `F${face}`);
      page.node.setFontDictionary(PDFName.of(`F${face}`), fontOf(face).ref);
    }
    return { name: `F${face}`, hex: fontOf(face).encodeText(text).asString() };
  });
  const stream = page.doc.context.flateStream(content);
  page.node.set(PDFName.of('Contents'), page.doc.context.register(stream));
}

function stampFaceOf(font: PDFFont, fonts: Fonts): Omit<StampFace, 'source'> {
  const codes = new Map(stampCharacters.map((character) => [character, font.encodeText(character).asString()]));
  const known = (text: string): string => Array.from(text.normalize('NFC'), (c) => (codes.has(c) ? c : '?')).join('');
  return {
    object: font.ref.objectNumber,
    encode: (text) => Array.from(known(text), (character) => codes.get(character) ?? '').join(''),
    widthOf: (text, size) => fonts.widthOf(known(text), 'text', size),
  };
}
