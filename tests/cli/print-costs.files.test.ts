import { readFileSync } from 'node:fs';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expect, test } from 'vitest';
import { printAnswer } from '../../core/cli/print/print-answer.ts';
import { bill, estimate, twoDraws, usd } from '../desk/money-of-the-house.ts';
import { openSmallLot } from '../desk/small-lot.ts';

/** All words of a PDF, by an independent reader; sheets one after the other. */
async function pdfText(bytes: Uint8Array): Promise<string> {
  const opening = getDocument({ data: new Uint8Array(bytes), verbosity: 0 });
  const document = await opening.promise;
  const words: string[] = [];
  for (let n = 1; n <= document.numPages; n += 1) {
    const { items } = await (await document.getPage(n)).getTextContent();
    for (const item of items) if ('str' in item) words.push(item.str);
  }
  await opening.destroy();
  return words.join('\n');
}

test('costs, a draw and the firms are told in plain words', async () => {
  await using small = await openSmallLot();
  const { desk, lot } = small;
  expect(printAnswer('costs', await desk.ask('costs', {}, { lot }))).toMatch(/^No estimate yet/);
  expect(printAnswer('trades', await desk.ask('trades', {}, { lot }))).toMatch(/^No firm is noted yet/);
  await twoDraws(small);
  await bill(small, { line: 'Framing', dollars: 10, day: '2026-06-14' });
  const costs = printAnswer('costs', await desk.ask('costs', {}, { lot }));
  expect(costs).toMatch(/^ +estimate +agreed +paid +still to pay$/m);
  expect(costs).toMatch(/^ {2}Framing +\$62,000 +\$20,000 +\$42,000$/m);
  expect(costs).toMatch(/^In all +\$250,000/m);
  expect(costs).toMatch(
    /Draw 2, 15 Jun 2026: \$36,450 due, \$11,050 held back; drawn up; a lien waiver missing: draw-check 2/,
  );
  expect(costs).not.toMatch(/paid or handed in/);
  expect(costs).toMatch(/of errands gone on already \(your\s+receipts\s+show\s+what\s+was\s+paid\)/);
  const check = printAnswer('draw-check', await desk.ask('draw-check', { draw: '2' }, { lot }));
  expect(check).toMatch(/Due now +\$36,450/);
  expect(check).toMatch(/█ REFUSED\n +No waiver from Framing firm/);
  await desk.ask('engage', { firm: 'Alder Framing', trade: 'framing', from: '2026-04-01' }, { lot });
  const trades = printAnswer('trades', await desk.ask('trades', {}, { lot }));
  expect(trades).toMatch(/^On site without cover on 14 Apr 2026:\n +Alder Framing \(framing\): no contractor licence/);
});

test('the cost breakdown and the draw request are PDFs that hold their sums, a draft while a waiver is missing', async () => {
  await using small = await openSmallLot();
  const { desk, lot } = small;
  const nothing = desk.ask('write-paper', { sort: 'cost-breakdown' }, { lot });
  await expect(nothing).rejects.toThrow(/no estimate yet/);
  await twoDraws(small);
  const textOf = async (ticket: string): Promise<string> => {
    const bytes = readFileSync(desk.tickets.look(ticket).path);
    return pdfText(bytes);
  };
  const breakdown = await desk.ask('write-paper', { sort: 'cost-breakdown' }, { lot });
  const first = await textOf(breakdown.ticket);
  for (const words of ['Cost breakdown', 'still to pay', '62,000', '250,000', 'Finishes'])
    expect(first).toContain(words);
  const clean = await desk.ask('write-paper', { sort: 'draw-request', draw: '2' }, { lot });
  const request = await textOf(clean.ticket);
  for (const words of ['Draw request 2', 'Schedule of values', '36,450', '11,050', '150,550', '44.2 %']) {
    expect(request).toContain(words);
  }
  expect(request).not.toContain('DRAFT');
  await bill(small, { line: 'Framing', dollars: 10, day: '2026-06-14' });
  const draft = await desk.ask('write-paper', { sort: 'draw-request', draw: '2' }, { lot });
  expect(draft.notes[0]).toMatch(/It is a DRAFT: a lien waiver missing/);
  expect(await textOf(draft.ticket)).toContain('DRAFT');
  expect((await desk.ask('write-paper', { sort: 'draw-request', draw: '2' }, { lot })).bytes).toBe(draft.bytes);
});

test('an estimate over several sheets keeps its head on each', async () => {
  await using small = await openSmallLot();
  const { desk, lot } = small;
  await estimate(small);
  for (let n = 0; n < 60; n += 1) {
    await desk.ask('cost-line', { title: `Further line ${n}`, estimate: usd(100 + n) }, { lot });
  }
  const made = await desk.ask('write-paper', { sort: 'cost-breakdown' }, { lot });
  expect(made.pages).toBeGreaterThan(1);
  const text = await pdfText(readFileSync(desk.tickets.look(made.ticket).path));
  expect(text.match(/still to pay/g)?.length).toBeGreaterThanOrEqual(made.pages - 1);
  expect(text).toContain('Further line 59');
});
