import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { onePage, throughQpdf } from '../intake/make-pdf.ts';
import { openSmallLot } from './small-lot.ts';

function everyFile(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
}

it('asks for the password of a locked file, keeps it once it is given, and writes the password nowhere', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const path = join(small.root, 'commitment.pdf');
  writeFileSync(path, await throughQpdf(onePage(), ['--encrypt', 'heron-lender-77', 'owner', '256', '--']));
  const paper = { files: [desk.tickets.offer(path)], kind: 'other' };

  const first = await desk.ask('keep', { papers: [paper] }, small);
  expect(first.kept).toEqual([]);
  expect(first.refused).toMatchObject([
    {
      file: 'commitment.pdf',
      error: { code: 'file refused', asks: 'password', message: expect.stringContaining('only with a password') },
    },
  ]);
  const wrong = await desk.ask('keep', { papers: [{ ...paper, password: 'Heron' }] }, small);
  expect(wrong.refused).toMatchObject([
    { error: { asks: 'password', message: expect.stringContaining('does not open with this password') } },
  ]);

  expect(await desk.askUntyped('read', { files: paper.files }, small).catch((error: unknown) => error)).toMatchObject({
    asks: 'password',
  });
  const read = await desk.ask('read', { files: paper.files, password: 'heron-lender-77' }, small);
  expect(read.texts.join(' ')).toContain('4711');

  const given = await desk.ask('keep', { papers: [{ ...paper, password: 'heron-lender-77' }] }, small);
  expect(given.refused).toEqual([]);
  expect((await desk.ask('find', { text: '4711' }, small)).found).toHaveLength(1);
  for (const file of everyFile(small.folder)) {
    expect(readFileSync(file).includes('heron-lender-77'), file).toBe(false);
  }
});
