import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, describe, expect, it } from 'vitest';
import type { KeepJob } from '../../core/intake/rendition-model.ts';
import type { WorkPort } from '../../core/workers/port.ts';
import { openWorkers, type WorkersOptions } from '../../core/workers/process-port.ts';
import { onePage } from '../intake/make-pdf.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-workers-'));
const opened: WorkPort[] = [];
function workers(options: WorkersOptions = {}): WorkPort {
  const port = openWorkers(options);
  opened.push(port);
  return port;
}
afterEach(async () => {
  await Promise.all(opened.splice(0).map((port) => port.close()));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

let count = 0;
function jobFor(bytes: Uint8Array = onePage(), name = 'septic-permit.pdf'): KeepJob {
  count += 1;
  const input = join(folder, `${count}.in`);
  writeFileSync(input, bytes);
  return { job: 'keep', input, name, output: join(folder, `${count}.out`) };
}

/** A stand-in worker program that behaves badly in one chosen way once it has its job. */
function badProgram(how: string): string {
  count += 1;
  const path = join(folder, `bad-${count}.mjs`);
  writeFileSync(
    path,
    `import { writeFileSync } from 'node:fs';
process.on('message', ({ id, job }) => { writeFileSync(job.output, 'half'); writeFileSync(job.output + '.scrap-1', 'half'); ${how} });
process.send({ say: 'ready' });`,
  );
  return path;
}

describe('keeping through worker processes', () => {
  it('gives back page facts, tells of each page, and writes the output', async () => {
    const job = jobFor();
    const heard: string[] = [];
    const done = await workers().keep(job, {
      onProgress: ({ what, done: page, of }) => heard.push(`${what} ${page}/${of}`),
    });
    expect(done.rendition.pages).toMatchObject([{ width: 612, height: 792, text: 'Septic permit 4711' }]);
    expect(heard).toEqual(['Reading septic-permit.pdf 1/1']);
    expect(existsSync(job.output)).toBe(true);
    expect(readdirSync(folder).filter((name) => name.includes('scrap'))).toEqual([]);
  });

  it('runs more jobs than it has workers', async () => {
    const port = workers({ count: 2 });
    const jobs = Array.from({ length: 5 }, () => jobFor());
    const done = await Promise.all(jobs.map((job) => port.keep(job)));
    expect(new Set(done.map(({ sha256 }) => sha256)).size).toBe(1);
  });

  it('passes a refusal on as it is, and goes on working', async () => {
    const port = workers({ count: 1 });
    await expect(port.keep(jobFor(Buffer.from('<html>'), 'deed.pdf'))).rejects.toMatchObject({
      code: 'file refused',
      about: 'deed.pdf',
      message: expect.stringContaining('web page'),
    });
    expect((await port.keep(jobFor())).rendition.pages).toHaveLength(1);
  });

  it('goes on where a library left a promise behind that fails (a find of the fuzz: pdf.js after a damaged table)', async () => {
    const path = join(folder, 'left-behind.mjs');
    const main = new URL('../../core/workers/worker-main.ts', import.meta.url).href;
    writeFileSync(
      path,
      `import ${JSON.stringify(main)};\nsetInterval(() => void Promise.reject(new Error('late')), 2);`,
    );
    const port = workers({ program: path, count: 1 });
    for (const job of [jobFor(), jobFor()]) expect((await port.keep(job)).rendition.pages).toHaveLength(1);
  });

  it('refuses the file on which a worker breaks down, and leaves nothing of it', async () => {
    const job = jobFor();
    const port = workers({ program: badProgram('process.abort();') });
    await expect(port.keep(job)).rejects.toMatchObject({ code: 'file refused', about: 'septic-permit.pdf' });
    expect(readdirSync(folder).filter((name) => name.startsWith(`${count - 1}.`))).toEqual([`${count - 1}.in`]);
  });

  it('ends a worker that takes too long, and leaves nothing of its work', async () => {
    const job = jobFor();
    const port = workers({ program: badProgram('for (;;);'), time: { open: () => 300, page: 10 } });
    await expect(port.keep(job)).rejects.toMatchObject({
      code: 'file refused',
      message: expect.stringContaining('longer'),
    });
    expect(existsSync(job.output)).toBe(false);
    expect(existsSync(`${job.output}.scrap-1`)).toBe(false);
  });

  it('stops at once when the person stops it, even a worker that no longer listens', async () => {
    const job = jobFor();
    const port = workers({ count: 1, program: badProgram('for (;;);') });
    const stop = new AbortController();
    const running = port.keep(job, { signal: stop.signal });
    const waiting = port.keep(jobFor(), { signal: stop.signal });
    setTimeout(() => stop.abort(), 300);
    const ends = await Promise.allSettled([running, waiting]);
    expect(ends).toMatchObject([{ reason: { code: 'stopped' } }, { reason: { code: 'stopped' } }]);
    await expect(port.keep(jobFor(), { signal: stop.signal })).rejects.toMatchObject({ code: 'stopped' });
    expect(existsSync(job.output)).toBe(false);
  });

  it('ends a worker that outgrows its memory and says that memory was the matter', async () => {
    const hog = badProgram('const kept = []; for (;;) kept.push(Buffer.alloc(20 << 20, 1));');
    const real = new URL('../../core/workers/watchdog.ts', import.meta.url).href;
    const path = join(folder, `watched-${count}.mjs`);
    writeFileSync(
      path,
      `import { startWatchdog } from ${JSON.stringify(real)};\nstartWatchdog(200 << 20);\nawait import(${JSON.stringify(hog)});`,
    );
    await expect(workers({ program: path }).keep(jobFor())).rejects.toMatchObject({
      code: 'file refused',
      message: expect.stringContaining('memory'),
    });
  });

  it('trusts no message that doesn\u2019t have the agreed form', async () => {
    const port = workers({
      program: badProgram("process.send({ say: 'done', id, memory: 1, result: { sha256: 'x' } });"),
    });
    await expect(port.keep(jobFor())).rejects.toMatchObject({ code: 'file refused' });
  });

  it('blames the program, not the file, where the program doesn\u2019t start', async () => {
    const port = workers({ program: join(folder, 'not-there.mjs') });
    await expect(port.keep(jobFor())).rejects.toMatchObject({
      code: 'internal',
      message: expect.stringContaining('did not start'),
    });
  });
});
