import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { pictures } from '../intake/troubles/drawn.ts';
import { openWindow } from './harness.ts';

/** The page's policy lets no WebAssembly in, so the decoders of these have to do without it. */
it.each(['a JBIG2 picture', 'a JPEG 2000 picture'])('%s in a kept paper is drawn', async (what) => {
  await using open = await openWindow({ sample: true });
  const page = await open.openSample('papers');
  const trouble = pictures.find((each) => each.what === what);
  const path = join(open.folder, 'scan.pdf');
  writeFileSync(path, (await trouble?.make()) ?? new Uint8Array());
  const sample = await open.host.sampleLot();
  const opened = await open.host.ask('open-lot', { folder: sample.folder }, {});
  if (!opened.ok || !('lot' in opened.answer)) throw new Error('not open');
  const ticket = open.host.desk.tickets.offer(path, 'scan.pdf');
  const papers = [{ files: [ticket], kind: 'other', title: 'Old scan' }];
  const reply = await open.host.ask('keep', { papers }, { lot: opened.answer.lot });
  if (!reply.ok || !('kept' in reply.answer) || typeof reply.answer.kept !== 'object') throw new Error('not kept');
  await open.go(`#/sample/papers/${encodeURIComponent(reply.answer.kept[0]?.paper ?? '')}`);
  const canvas = page.locator('.page-picture canvas').first();
  await canvas.waitFor();
  // The picture stands 100 points from the lower left, 200 wide: its middle is black once it is drawn.
  await page.waitForFunction(() => {
    const drawn = document.querySelector<HTMLCanvasElement>('.page-picture canvas');
    if (drawn === null || drawn.width === 0) return false;
    const [x, y] = [(200 / 612) * drawn.width, (592 / 792) * drawn.height];
    const pixel = drawn.getContext('2d')?.getImageData(x, y, 1, 1).data ?? [];
    return (pixel[0] ?? 255) < 60 && (pixel[3] ?? 0) > 200;
  });
  expect(await page.getByText('This page can’t be shown').count()).toBe(0);
});
