import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import fontkit from '@cantoo/fontkit';
import { type PDFDocument, type PDFFont, StandardFonts } from 'pdf-lib';

const open = {
  human: 'source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  humanBold: 'source-sans-3/700Bold/SourceSans3_700Bold.ttf',
  humanItalic: 'source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
  slab: 'bitter/400Regular/Bitter_400Regular.ttf',
  slabBold: 'bitter/700Bold/Bitter_700Bold.ttf',
  code: 'source-code-pro/400Regular/SourceCodePro_400Regular.ttf',
} as const;

const standard = {
  sans: StandardFonts.Helvetica,
  sansBold: StandardFonts.HelveticaBold,
  sansItalic: StandardFonts.HelveticaOblique,
  serif: StandardFonts.TimesRoman,
  serifBold: StandardFonts.TimesRomanBold,
  serifItalic: StandardFonts.TimesRomanItalic,
  mono: StandardFonts.Courier,
  monoBold: StandardFonts.CourierBold,
} as const;

export type Face = keyof typeof open | keyof typeof standard;

function isOpen(face: Face): face is keyof typeof open {
  return face in open;
}

/** Offices' machines rarely know every letter: what a standard font lacks is printed without its marks. */
export function foldFor(face: Face, text: string): string {
  if (isOpen(face)) return text.normalize('NFC');
  return [...text.normalize('NFC')]
    .map((letter) => (letter.charCodeAt(0) < 256 || '–—’‘“”•'.includes(letter) ? letter : plain(letter)))
    .join('');
}

function plain(letter: string): string {
  const base = letter.normalize('NFD').charAt(0);
  return base.charCodeAt(0) < 256 ? base : '?';
}

export type Faces = Readonly<Record<Face, PDFFont>>;

/** Embeds a face: the open ones as a subset, the standard ones by name only, as most office programs do. */
export async function embedFace(doc: PDFDocument, face: Face): Promise<PDFFont> {
  if (!isOpen(face)) return doc.embedFont(standard[face]);
  doc.registerFontkit(fontkit);
  const file = createRequire(import.meta.url).resolve(`@expo-google-fonts/${open[face]}`);
  return doc.embedFont(readFileSync(file), { subset: true });
}
