import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { openWorkers } from '../../core/workers/process-port.ts';
import { onePage, throughQpdf } from '../intake/make-pdf.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-password-'));
const workers = openWorkers({ count: 1 });
afterAll(async () => {
  await workers.close();
  rmSync(folder, { recursive: true, force: true });
});

it('a worker asks for a password, and takes it', async () => {
  const input = join(folder, 'loan.pdf');
  const job = { job: 'keep', input, name: 'loan.pdf', output: join(folder, 'loan.kept') } as const;
  writeFileSync(input, await throughQpdf(onePage(), ['--encrypt', 'open', 'owner', '256', '--']));
  await expect(workers.keep(job)).rejects.toMatchObject({ code: 'file refused', asks: 'password' });
  expect(readdirSync(folder)).toEqual(['loan.pdf']);
  const { rendition } = await workers.keep({ ...job, password: 'open' });
  expect(rendition.pages[0]?.text).toBe('Septic permit 4711');
  expect(rendition.notes.join()).toContain('locked with a password');
});
