import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { composeBundle, composeWhole } from '../reading-set/bundles.ts';
import { judgeCuts, judgeParts } from '../reading-set/judge-cuts.ts';
import { common } from './written.ts';

const folder = mkdtempSync(join(tmpdir(), 'lotfile-cuts-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

// `npm run reading:cuts` measures hundreds.
it('trays of papers are cut where their papers begin, and papers of many pages nowhere', async () => {
  const judged = [];
  // Among them a drawing without words, and a blank first page.
  for (const number of [1, 3]) {
    judged.push(await judgeCuts(composeBundle(0, number), { folder, practice: common }));
    judged.push(await judgeCuts(composeWhole(0, number), { folder, practice: common }));
  }
  expect(judged.filter(({ right }) => !right)).toEqual([]);
  const [named, papers] = [judged.map((one) => one.named), judged.map((one) => one.papers)].map((all) =>
    all.reduce((sum, one) => sum + one, 0),
  );
  expect((named ?? 0) / (papers ?? 1)).toBeGreaterThan(0.9);
});

it('a part that gives up a page with ink, or takes one of the next, is not held for right', () => {
  const bundle = composeBundle(0, 3);
  const cuts = bundle.begins.map((from, n) => ({ from, to: bundle.ends[n] ?? from }));
  const without = (n: number, change: number) =>
    judgeParts(
      bundle,
      cuts.map((cut, at) => (at === n ? { ...cut, to: cut.to + change } : cut)),
    );
  expect(judgeParts(bundle, cuts)).toMatchObject({ right: true, ends: [], astray: [] });
  expect(without(3, -1)).toMatchObject({ right: false, missed: [], tooMany: [], ends: [4], astray: [4] });
  expect(without(0, 1)).toMatchObject({ right: false, missed: [], tooMany: [], ends: [0], astray: [1] });
});
