import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument, PDFName, PDFString } from 'pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type OpenWindow, openWindow } from './harness.ts';

const script = '<img src=x onerror="window.broken=1"><script>window.broken=1</script>';

/** A sound page with JavaScript hung on everything that may carry it. */
async function pdfWithScript(): Promise<Uint8Array> {
  const document = await PDFDocument.create();
  const page = document.addPage([612, 792]);
  page.drawText('Termite certificate', { x: 72, y: 700 });
  const action = document.context.obj({ S: 'JavaScript', JS: PDFString.of('app.alert("broken"); window.broken = 1;') });
  document.catalog.set(PDFName.of('OpenAction'), action);
  page.node.set(PDFName.of('AA'), document.context.obj({ O: action }));
  document.addJavaScript('main', 'window.broken = 1;');
  return document.save();
}

describe('hostile papers in the window', () => {
  let open: OpenWindow;
  let lot = '';
  beforeAll(async () => {
    open = await openWindow({ sample: true });
    await open.openSample('papers');
    const sample = await open.host.act('sample-lot', {});
    if (!sample.ok || !('folder' in sample.answer)) throw new Error('no sample');
    const opened = await open.host.ask('open-lot', { folder: sample.answer.folder }, {});
    if (!opened.ok || !('lot' in opened.answer)) throw new Error('not open');
    lot = opened.answer.lot;
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  async function broken(): Promise<boolean> {
    return open.page.evaluate(() => 'broken' in window);
  }

  async function keep(path: string, name: string, said: object): Promise<string> {
    const ticket = open.host.desk.tickets.offer(path, name);
    const reply = await open.host.ask('keep', { papers: [{ files: [ticket], ...said }] }, { lot });
    if (!reply.ok || !('kept' in reply.answer) || typeof reply.answer.kept !== 'object') throw new Error('not kept');
    const [kept] = reply.answer.kept;
    if (kept === undefined) throw new Error(`refused: ${JSON.stringify(reply.answer)}`);
    return kept.paper;
  }

  it('shows script in a paper’s title as the words it is', async () => {
    const path = join(open.folder, 'title.pdf');
    writeFileSync(path, await pdfWithScript());
    const paper = await keep(path, `${script}.pdf`, { kind: 'other', title: script, number: script });
    const { page } = open;
    await open.go(`#/sample/papers/${encodeURIComponent(paper)}`);
    await page.getByRole('heading', { name: script }).waitFor();
    await open.go('#/sample/history');
    await page.getByText(`Kept ${script}`).first().waitFor();
    await open.go(`#/sample/find/${encodeURIComponent('onerror')}`);
    await page.getByText('onerror').first().waitFor();
    expect(await broken()).toBe(false);
  });

  it('draws a PDF that carries JavaScript without running it', async () => {
    const path = join(open.folder, 'script.pdf');
    writeFileSync(path, await pdfWithScript());
    const paper = await keep(path, 'script.pdf', { kind: 'termite-final' });
    const dialogs: string[] = [];
    open.page.on('dialog', (dialog) => {
      dialogs.push(dialog.message());
      void dialog.dismiss();
    });
    await open.go(`#/sample/papers/${encodeURIComponent(paper)}`);
    await open.page.locator('.page-picture canvas').first().waitFor();
    await open.page.waitForFunction(
      () => (document.querySelector<HTMLCanvasElement>('.page-picture canvas')?.width ?? 0) > 301,
    );
    expect(await broken()).toBe(false);
    expect(dialogs).toEqual([]);
  });

  it('keeps foreign script, frames and connections out by policy', async () => {
    const answer = await open.page.evaluate(async () => {
      const tried: string[] = [];
      const element = document.createElement('script');
      element.textContent = 'window.broken = 1';
      document.body.append(element);
      tried.push('broken' in window ? 'inline script ran' : 'inline script kept out');
      tried.push(
        await fetch('http://127.0.0.1:9/').then(
          () => 'fetched elsewhere',
          () => 'fetch kept out',
        ),
      );
      // In a timer of the page's own: what the browser's tools evaluate themselves is let through.
      tried.push(
        await new Promise<string>((resolve) =>
          setTimeout(() => {
            try {
              resolve(String(new Function('return "eval ran"')()));
            } catch {
              resolve('eval kept out');
            }
          }),
        ),
      );
      return tried;
    });
    expect(answer).toEqual(['inline script kept out', 'fetch kept out', 'eval kept out']);
  });
});
