import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import fontkit from '@cantoo/fontkit';
import { PDFDocument, type PDFFont, type PDFPage, rgb, StandardFonts } from 'pdf-lib';
import { Chance } from './chance.ts';
import type { Block, SetDocument } from './compose.ts';

const sourceSans = '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf';
const bitter = '@expo-google-fonts/bitter/400Regular/Bitter_400Regular.ttf';

/** A page being written from the top down. */
interface Sheet {
  readonly page: PDFPage;
  readonly font: PDFFont;
  readonly bold: PDFFont;
  readonly size: number;
  readonly left: number;
  y: number;
  footY: number;
}

function wrapped(text: string, font: PDFFont, room: { readonly size: number; readonly width: number }): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (font.widthOfTextAtSize(longer, room.size) > room.width && line !== '') {
      lines.push(line);
      line = word;
    } else line = longer;
  }
  return [...lines, line];
}

function write(
  sheet: Sheet,
  text: string,
  at: { readonly x: number; readonly bold?: boolean; readonly size?: number },
): void {
  sheet.page.drawText(text, {
    x: at.x,
    y: sheet.y,
    size: at.size ?? sheet.size,
    font: at.bold === true ? sheet.bold : sheet.font,
  });
}

function paragraph(sheet: Sheet, text: string): void {
  for (const line of wrapped(text, sheet.font, { size: sheet.size, width: 612 - 2 * sheet.left })) {
    write(sheet, line, { x: sheet.left });
    sheet.y -= sheet.size * 1.35;
  }
  sheet.y -= sheet.size * 0.7;
}

type Pairs = Extract<Block, { sort: 'pairs' }>;

function boxed(sheet: Sheet, { pairs }: Pairs): void {
  const width = (612 - 2 * sheet.left) / 2;
  const height = sheet.size * 3;
  pairs.forEach(([label, value], at) => {
    const x = sheet.left + (at % 2) * width;
    const top = sheet.y - Math.floor(at / 2) * height;
    sheet.page.drawRectangle({ x, y: top - height, width, height, borderWidth: 0.7, borderColor: rgb(0, 0, 0) });
    sheet.page.drawText(label, { x: x + 4, y: top - sheet.size * 0.95, size: sheet.size * 0.75, font: sheet.font });
    sheet.page.drawText(value, { x: x + 6, y: top - sheet.size * 2.4, size: sheet.size, font: sheet.bold });
  });
  sheet.y -= Math.ceil(pairs.length / 2) * height + sheet.size * 1.8;
}

function table(sheet: Sheet, { pairs }: Pairs): void {
  for (let from = 0; from < pairs.length; from += 3) {
    const row = pairs.slice(from, from + 3);
    const width = (612 - 2 * sheet.left) / row.length;
    for (const [at, [label]] of row.entries()) {
      write(sheet, label, { x: sheet.left + at * width, bold: true, size: sheet.size * 0.9 });
    }
    sheet.y -= sheet.size * 1.5;
    for (const [at, [, value]] of row.entries()) write(sheet, value, { x: sheet.left + at * width });
    sheet.y -= sheet.size * 2;
  }
}

function rows(sheet: Sheet, block: Pairs): void {
  for (const [label, value] of block.pairs) {
    write(sheet, block.layout === 'dotted' ? label : `${label}:`, { x: sheet.left, bold: block.layout === 'colon' });
    if (block.layout === 'dotted') {
      const from = sheet.left + sheet.font.widthOfTextAtSize(label, sheet.size) + 4;
      const dots = Math.max(3, Math.floor((sheet.left + 210 - from) / sheet.font.widthOfTextAtSize('.', sheet.size)));
      write(sheet, '.'.repeat(dots), { x: from });
    }
    write(sheet, value, { x: sheet.left + (block.layout === 'dotted' ? 220 : 190) });
    sheet.y -= sheet.size * 1.6;
  }
}

function columns(sheet: Sheet, { pairs }: Pairs): void {
  let column = 0;
  for (const [label, value] of pairs) {
    const end = `${label}: `;
    const wide = sheet.font.widthOfTextAtSize(end, sheet.size) + 4 + sheet.bold.widthOfTextAtSize(value, sheet.size);
    // What is too wide for a column has a row to itself.
    if (wide > 250 && column === 1) {
      sheet.y -= sheet.size * 1.8;
      column = 0;
    }
    const x = sheet.left + column * 262;
    write(sheet, end, { x });
    write(sheet, value, { x: x + sheet.font.widthOfTextAtSize(end, sheet.size) + 4, bold: true });
    column = wide > 250 ? 0 : 1 - column;
    if (column === 0) sheet.y -= sheet.size * 1.8;
  }
  if (column === 1) sheet.y -= sheet.size * 1.8;
}

function drawPairs(sheet: Sheet, block: Pairs): void {
  switch (block.layout) {
    case 'boxed':
      boxed(sheet, block);
      break;
    case 'table':
      table(sheet, block);
      break;
    case 'columns':
      columns(sheet, block);
      break;
    case 'sentences':
      paragraph(sheet, block.pairs.map(([label, value]) => `${label} is ${value}.`).join(' '));
      return;
    case 'colon':
    case 'dotted':
      rows(sheet, block);
  }
  sheet.y -= sheet.size * 0.8;
}

function drawBlock(sheet: Sheet, block: Block): void {
  switch (block.sort) {
    case 'letterhead':
      for (const line of block.lines) {
        const width = sheet.bold.widthOfTextAtSize(line, sheet.size);
        write(sheet, line, { x: 306 - width / 2, bold: true });
        sheet.y -= sheet.size * 1.3;
      }
      sheet.y -= 10;
      break;
    case 'title': {
      const size = sheet.size * 1.6;
      for (const line of wrapped(block.text, sheet.bold, { size, width: 480 })) {
        write(sheet, line, { x: 306 - sheet.bold.widthOfTextAtSize(line, size) / 2, bold: true, size });
        sheet.y -= size * 1.3;
      }
      sheet.y -= 10;
      break;
    }
    case 'pairs':
      drawPairs(sheet, block);
      break;
    case 'text':
      paragraph(sheet, block.text);
      break;
    case 'stamp':
      sheet.page.drawText(block.text, { x: 430, y: 735, size: 10, font: sheet.bold });
      break;
    case 'signature':
      sheet.y -= 26;
      sheet.page.drawLine({ start: { x: sheet.left, y: sheet.y + 12 }, end: { x: sheet.left + 200, y: sheet.y + 12 } });
      write(sheet, block.name, { x: sheet.left });
      if (block.date !== '') write(sheet, `Date: ${block.date}`, { x: 380 });
      sheet.y -= 20;
      break;
    case 'foot':
      sheet.page.drawText(block.text, { x: sheet.left, y: sheet.footY, size: 8, font: sheet.font });
      sheet.footY += 12;
  }
}

async function fontsFor(file: PDFDocument, chance: Chance): Promise<readonly [PDFFont, PDFFont]> {
  file.registerFontkit(fontkit);
  const own = async (path: string) => {
    const font = await file.embedFont(readFileSync(fileURLToPath(import.meta.resolve(path))), { subset: true });
    return [font, font] as const;
  };
  const standard = async (plain: StandardFonts, bold: StandardFonts) =>
    [await file.embedFont(plain), await file.embedFont(bold)] as const;
  switch (chance.whole(0, 4)) {
    case 0:
      return standard(StandardFonts.TimesRoman, StandardFonts.TimesRomanBold);
    case 1:
      return standard(StandardFonts.Courier, StandardFonts.CourierBold);
    case 2:
      return own(sourceSans);
    case 3:
      return own(bitter);
    default:
      return standard(StandardFonts.Helvetica, StandardFonts.HelveticaBold);
  }
}

/** The document as a clean one-page PDF with a text layer; the same bytes every time. */
export async function drawDocument(document: SetDocument): Promise<Uint8Array> {
  const chance = new Chance(104729 + document.index);
  const file = await PDFDocument.create({ updateMetadata: false });
  const [font, bold] = await fontsFor(file, chance);
  const size = font.name.startsWith('Courier') ? 9.5 : chance.between(9.5, 11.5);
  const sheet: Sheet = {
    page: file.addPage([612, 792]),
    font,
    bold,
    size,
    left: chance.whole(48, 66),
    y: 738,
    footY: 34,
  };
  for (const block of document.blocks) drawBlock(sheet, block);
  return file.save({ useObjectStreams: false });
}
