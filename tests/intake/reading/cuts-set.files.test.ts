import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { composeBundle, composeWhole } from '../reading-set/bundles.ts';
import { judgeCuts } from '../reading-set/judge-cuts.ts';
import { common } from './written.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-cuts-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// `npm run reading:cuts` measures hundreds.
it('trays of papers are cut where their papers begin, and papers of many pages nowhere', async () => {
  const judged = [];
  for (const number of [0, 1, 2, 3]) {
    judged.push(await judgeCuts(composeBundle(0, number), { folder, practice: common }));
    judged.push(await judgeCuts(composeWhole(0, number), { folder, practice: common }));
  }
  expect(judged.filter(({ right }) => !right)).toEqual([]);
  const [named, papers] = [judged.map((one) => one.named), judged.map((one) => one.papers)].map((all) =>
    all.reduce((sum, one) => sum + one, 0),
  );
  expect((named ?? 0) / (papers ?? 1)).toBeGreaterThan(0.9);
});
