import { writeFileSync } from 'node:fs';
import { PDFDocument } from 'pdf-lib';
import sharp from 'sharp';

/** Letters drawn as a picture of a sheet at 150 dots an inch: nothing of them can be read but by looking. */
async function sheet(text: string): Promise<Buffer> {
  const lines = text
    .split('\n')
    .map((line, n) => `<text x="150" y="${300 + n * 70}" font-family="sans-serif" font-size="44">${line}</text>`);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="1275" height="1650"><rect width="100%" height="100%" fill="white"/>${lines.join('')}</svg>`;
  return sharp(Buffer.from(svg)).grayscale().jpeg({ quality: 85 }).toBuffer();
}

/** A scan: a page per text, an empty text being a blank back side. */
export async function writeScan(path: string, pages: readonly string[]): Promise<string> {
  const document = await PDFDocument.create();
  for (const text of pages) {
    const picture = await document.embedJpg(await sheet(text));
    document.addPage([612, 792]).drawImage(picture, { x: 0, y: 0, width: 612, height: 792 });
  }
  writeFileSync(path, await document.save());
  return path;
}
