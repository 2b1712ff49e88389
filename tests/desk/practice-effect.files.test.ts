import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { readLayerFile, writeLayerFile } from '../../core/practice/index.ts';
import { openSmallLot, type SmallLot } from './small-lot.ts';

let small: SmallLot;
beforeAll(async () => {
  small = await openSmallLot();
});
afterAll(async () => {
  await small[Symbol.asyncDispose]();
});

it('shows what a rule would change on this lot, and notes nothing', async () => {
  const { desk } = small;
  const before = await desk.ask('practice-words', {}, small);
  const held = { rule: 'errands.roof-deck-inspect.exists', value: true } as const;
  const { rows } = await desk.ask('practice-effect', held, small);
  const says = rows.map(({ say }) => say);
  expect(says).toContain('Roof deck fastening inspection comes in.');
  expect(says).toContain('Before you cover the roof deck: it waits for Roof deck fastening inspection.');
  expect(says.some((say) => say.startsWith('Framing inspection, questioned: "Roof deck'))).toBe(true);
  const fee = await desk.ask('practice-effect', { rule: 'errands.permit-apply.fee', value: '240 usd' }, small);
  expect(fee.rows).toEqual([{ say: 'Fees still to pay come to $240 instead of $0.', way: 'harder' }]);
  expect(await desk.ask('practice-words', {}, small)).toEqual(before);
  expect(Object.keys((await desk.ask('practice', {}, small)).practice.errands)).not.toContain('roof-deck-inspect');
  const bad = { rule: 'errands.permit-apply.fee', value: 'a lot' } as const;
  await expect(desk.ask('practice-effect', bad, small)).rejects.toMatchObject({ code: 'bad practice' });
  await expect(desk.ask('practice-effect', {}, small)).rejects.toMatchObject({ code: 'wrong use' });
});

it('a neighbour gets the amendments as one file, sees what they change on his lot, lays them over and takes them off', async () => {
  const { desk } = small;
  await expect(desk.ask('export-practice', {}, small)).rejects.toMatchObject({ code: 'not found' });
  const told = { who: 'R. Amsel', day: '2026-04-02' } as const;
  await desk.ask('clerk-said', { ...told, rule: 'errands.permit-apply.fee', value: '240 usd' }, small);
  await desk.ask('clerk-said', { ...told, rule: 'errands.permit-apply.needs.plans.copies', value: 3 }, small);
  const { ticket, name, layers } = await desk.ask('export-practice', {}, small);
  expect([name, layers]).toEqual([expect.stringMatching(/amendments-2026-04-14\.yaml$/), 2]);
  const path = join(small.root, 'neighbour.yaml');
  writeFileSync(path, readFileSync(desk.tickets.look(ticket).path));
  await using other = await openSmallLot();
  const file = other.desk.tickets.offer(path);
  const { rows } = await other.desk.ask('practice-effect', { file }, other);
  expect(rows.map(({ say }) => say)).toContain('Fees still to pay come to $240 instead of $0.');
  const { layers: laid } = await other.desk.ask('lay-over', { file }, other);
  expect(laid).toEqual(['neighbour', 'neighbour (2)']);
  const { practice } = await other.desk.ask('practice', {}, other);
  expect(practice.errands['permit-apply']?.fee).toBe(24_000);
  expect(practice.errands['permit-apply']?.needs.find(({ id }) => id === 'plans')).toMatchObject({
    copies: 3,
    basis: { on: 'the office told us', who: 'R. Amsel', day: '2026-04-02' },
  });
  await other.desk.ask('undo', {}, other);
  expect((await other.desk.ask('practice', {}, other)).practice.errands['permit-apply']?.fee).toBeUndefined();
  writeFileSync(path, 'errands:\n  no-such-errand: { fee: 3 usd, office: nowhere }\n');
  await expect(other.desk.ask('lay-over', { file }, other)).rejects.toMatchObject({ code: 'bad practice' });
});

it('several layers in one file come apart as they went in', () => {
  const layers = [
    { name: 'ours', text: 'title: Ours\nerrands:\n  a: { fee: free }' },
    { name: 'word of 2026-04-02', text: 'amends_only: yes\nerrands:\n  a: { fee: 3 usd }' },
  ];
  const back = readLayerFile({ name: 'file', text: writeLayerFile(layers, ['For a neighbour']) });
  expect(back.map(({ text }) => text.trim())).toEqual(layers.map(({ text }) => text));
  expect(readLayerFile({ name: 'one', text: layers[0]?.text ?? '' })).toEqual([{ name: 'one', text: layers[0]?.text }]);
});
