import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument, StandardFonts } from 'pdf-lib';
import { type Desk, openDesk } from '../../core/desk/desk.ts';
import type { Day } from '../../core/vocabulary/days.ts';

export const smallDay: Day = '2026-04-14';

/** A small sound PDF: one page per line of text. */
export async function writePdf(path: string, pages: readonly string[]): Promise<string> {
  const document = await PDFDocument.create();
  const font = await document.embedFont(StandardFonts.Helvetica);
  for (const text of pages) {
    const page = document.addPage([612, 792]);
    page.drawText(text, { x: 72, y: 700, size: 14, font });
  }
  writeFileSync(path, await document.save());
  return path;
}

export interface SmallLot extends AsyncDisposable {
  readonly desk: Desk;
  readonly lot: string;
  readonly root: string;
  readonly folder: string;
  /** Writes a PDF in the root and offers it. */
  pdf(name: string, pages: readonly string[]): Promise<string>;
}

/** A lot with common practice in a fresh folder, and the desk that holds it. */
export async function openSmallLot(host: { readonly stays?: boolean } = {}): Promise<SmallLot> {
  const root = mkdtempSync(join(tmpdir(), 'lotfile-desk-'));
  const folder = join(root, 'lot');
  const desk = openDesk({ program: 'test', today: () => smallDay, ...host });
  const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(folder), title: 'Heron Lane' });
  return {
    desk,
    lot,
    root,
    folder,
    pdf: async (name, pages) => desk.tickets.offer(await writePdf(join(root, name), pages)),
    [Symbol.asyncDispose]: async () => {
      await desk.close();
      rmSync(root, { recursive: true, force: true });
    },
  };
}
