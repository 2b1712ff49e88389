import sharp from 'sharp';
import type { KeepContext } from '../keep-context.ts';
import { drawPage, type PagePixels } from '../pdfium/draw-page.ts';
import { hasPage, type ReaderDocument } from '../pdfium/open-document.ts';
import { RegularWriter } from '../regular/write-file.ts';

/** More than that is no damaged paper but a book; drawing it would take longer than anyone waits. */
const mostPages = 400;
const quality = 88;

async function jpegOf({ width, height, channels, pixels }: PagePixels): Promise<Buffer> {
  const picture = sharp(pixels, { raw: { width, height, channels } });
  const kept = channels === 1 ? picture.toColourspace('b-w') : picture;
  return await kept.jpeg({ quality, chromaSubsampling: '4:4:4' }).toBuffer();
}

/** At most five places, as PDF numbers are written (no exponents). */
function number(value: number): string {
  return String(Number(value.toFixed(5)));
}

/** Objects of one page: picture, content, page. Returns the page's number. */
function addPage(writer: RegularWriter, drawn: PagePixels, jpeg: Buffer): number {
  const { width, height, channels, points } = drawn;
  const space = channels === 1 ? '/DeviceGray' : '/DeviceRGB';
  const picture = writer.addStream(
    `/BitsPerComponent 8 /ColorSpace ${space} /Filter /DCTDecode /Height ${height} /Subtype /Image /Type /XObject /Width ${width}`,
    jpeg,
  );
  const [wide, high] = [number(points.width), number(points.height)];
  const content = writer.addStream('', Buffer.from(`q\n${wide} 0 0 ${high} 0 0 cm\n/Im0 Do\nQ\n`));
  return writer.add(
    `<< /Contents ${content} 0 R /MediaBox [ 0 0 ${wide} ${high} ] /Parent 2 0 R /Resources << /XObject << /Im0 ${picture} 0 R >> >> /Type /Page >>`,
  );
}

/**
 * The last resort: every page drawn by the reader, as a picture on a page of the same size. Looks are kept; text and
 * lines become dots, links and fields are gone, and the person is told.
 */
export async function picturePages(context: KeepContext, original: ReaderDocument): Promise<string | undefined> {
  const { pageCount } = original;
  if (pageCount > mostPages) return `it has ${pageCount} pages, too many to keep as pictures`;
  const there = Array.from({ length: pageCount }, (_, index) => index).filter((index) => hasPage(original, index));
  if (there.length === 0) return 'none of its pages can be read';
  const writer = new RegularWriter(context.job.output);
  try {
    writer.add('<< /Pages 2 0 R /Type /Catalog >>');
    const kids = there.map((_, at) => `${5 + at * 3} 0 R`);
    writer.add(`<< /Count ${there.length} /Kids [ ${kids.join(' ')} ] /Type /Pages >>`);
    for (const [at, index] of there.entries()) {
      const drawn = drawPage(original, index);
      if (drawn === undefined) return `page ${index + 1} can't be drawn`;
      addPage(writer, drawn, await jpegOf(drawn));
      await context.onPage(at + 1, there.length);
    }
    writer.finish(1, context.source.slice(0, 32));
    return undefined;
  } finally {
    writer.close();
  }
}
