import { afterAll, describe, expect, it } from 'vitest';
import { openWorkers } from '../../core/workers/process-port.ts';
import { fuzzFiles } from './fuzz/fuzz-files.ts';
import { bench } from './keeping.ts';

const at = bench();
const workers = openWorkers({ count: 2, memoryMB: 1024 });
afterAll(async () => {
  await workers.close();
  at.clear();
});

describe('two hundred files that chance damaged (seed 20)', () => {
  it('are each kept or refused with a sentence: no crash, no hang, nothing left behind', {
    timeout: 600_000,
  }, async () => {
    const report = await fuzzFiles({ workers, folder: at.path('fuzz'), count: 200, seed: 20, lanes: 2 });
    expect(report.found).toEqual([]);
    const sum = (counts: Readonly<Record<string, number>>) => Object.values(counts).reduce((all, one) => all + one, 0);
    expect(sum(report.kept) + sum(report.refused)).toBe(200);
    expect(sum(report.kept)).toBeGreaterThan(60);
    expect(sum(report.refused)).toBeGreaterThan(20);
  });
});
