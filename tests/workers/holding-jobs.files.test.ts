import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { openWorkers } from '../../core/workers/process-port.ts';
import { zipOf } from '../intake/mail/make-zip.ts';
import { onePage, words } from '../intake/make-pdf.ts';
import { drawnL } from '../intake/make-pictures.ts';
import { sealed, signerOf } from '../intake/seals/make-sealed.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-holding-'));
const port = openWorkers({ count: 1 });
afterAll(async () => {
  await port.close();
  rmSync(folder, { recursive: true, force: true });
});

let count = 0;
function written(bytes: Uint8Array): { readonly input: string; readonly output: string } {
  count += 1;
  const [input, output] = [join(folder, `in-${count}`), join(folder, `out-${count}`)];
  writeFileSync(input, bytes);
  return { input, output };
}

describe('jobs of worker processes besides keeping and reading', () => {
  it('take a ZIP apart, and sweep the folder where it is none', async () => {
    const good = written(zipOf([{ name: 'a/deed.pdf', data: onePage() }]));
    mkdirSync(good.output);
    const { files } = await port.unpack({ job: 'unpack', name: 'papers.zip', ...good });
    expect(files).toMatchObject([{ name: 'deed.pdf', within: 'a', sort: 'pdf' }]);
    expect(readFileSync(files[0]?.path ?? '')).toEqual(onePage());
    const bad = written(onePage());
    mkdirSync(bad.output);
    await expect(port.unpack({ job: 'unpack', name: 'deed.pdf', ...bad })).rejects.toMatchObject({
      code: 'file refused',
    });
    expect(existsSync(bad.output)).toBe(false);
  });

  it('keep with a recipe, and tell of seals', async () => {
    const paper = written(onePage({ content: words('Number 123-45-6789') }));
    const recipe = { blackOut: [{ page: 0, place: { x: 90, y: 390, width: 300, height: 30 } }] };
    const blackened = await port.keep({ job: 'keep', name: 'deed.pdf', recipe, ...paper });
    expect(blackened.rendition.recipe).toMatch(/blacked out/);
    expect(blackened.rendition.pages[0]?.text).toBe('');
    const photo = written(await drawnL().jpeg().toBuffer());
    const cleaned = await port.keep({ job: 'keep', name: 'lot.jpg', recipe: { clean: { contrast: true } }, ...photo });
    expect(cleaned.rendition.recipe).toMatch(/cleaned up/);
    const signed = written(await sealed(onePage(), signerOf('Ana Ruiz, PLS')));
    const { rendition } = await port.keep({ job: 'keep', name: 'survey.pdf', ...signed });
    expect(rendition.seals).toMatchObject([{ signer: 'Ana Ruiz, PLS', bytes: 'unchanged' }]);
  });

  it('refuse a clean-up of what is no picture', async () => {
    const paper = written(onePage());
    await expect(
      port.keep({ job: 'keep', name: 'deed.pdf', recipe: { clean: { contrast: true } }, ...paper }),
    ).rejects.toMatchObject({ code: 'wrong use', about: 'deed.pdf' });
    expect(existsSync(paper.output)).toBe(false);
  });

  it('make kept pages smaller', async () => {
    const photo = written(await drawnL(1600, 1200).png({ compressionLevel: 0 }).toBuffer());
    const kept = await port.keep({ job: 'keep', name: 'lot.png', ...photo });
    const slim = { input: photo.output, output: join(folder, 'slim'), most: Math.round(kept.bytes * 0.9) };
    const done = await port.slim({ job: 'slim', name: 'lot.png', sealed: false, ...slim });
    expect(done).toMatchObject({ before: kept.bytes, after: readFileSync(slim.output).length });
    expect(done.pages).toHaveLength(1);
    await expect(port.slim({ job: 'slim', name: 'lot.png', ...slim, sealed: true })).rejects.toMatchObject({
      code: 'file refused',
    });
    expect(existsSync(slim.output)).toBe(false);
  });
});
