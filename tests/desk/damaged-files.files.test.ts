import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { Chance } from '../intake/fuzz/chance.ts';
import { mutated } from '../intake/fuzz/mutate.ts';
import { fuzzSeeds } from '../intake/fuzz/seeds.ts';
import { openSmallLot } from './small-lot.ts';

const count = 24;

it('a lot stays sound whatever damaged files are dropped on it', { timeout: 600_000 }, async () => {
  await using small = await openSmallLot();
  const { desk, root, folder } = small;
  const seeds = await fuzzSeeds();
  const papers = Array.from({ length: count }, (_, number) => {
    const chance = new Chance(7_000_000 + number);
    const bytes = mutated(chance.of(seeds).bytes, chance, chance.of(seeds).bytes);
    const path = join(root, `${number}.pdf`);
    writeFileSync(path, bytes);
    return { files: [desk.tickets.offer(path)], kind: 'other', title: `Paper ${number}` };
  });
  const { kept, refused } = await desk.ask('keep', { papers }, small);
  expect(kept.length + refused.length).toBe(count);
  expect(kept.length).toBeGreaterThan(0);
  expect(refused.length).toBeGreaterThan(0);
  for (const { error } of refused) expect(error).toMatchObject({ code: 'file refused', next: expect.any(String) });

  const verified = await desk.ask('verify', {}, small);
  expect(verified.problems).toEqual([]);
  expect(verified.files).toBeGreaterThanOrEqual(kept.length);
  const left = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) =>
    /scrap|\.part|tmp/.test(name),
  );
  expect(left).toEqual([]);
});
