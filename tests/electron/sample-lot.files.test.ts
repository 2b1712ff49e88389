import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import { asDay, type DeskEvents } from '../../core/desk/door.ts';
import { SampleLot } from '../../electron/host/sample-lot.ts';
import { sampleState } from '../../electron/host/sample-state.ts';
import { WindowHolds } from '../../electron/host/window-holds.ts';
import { readStory } from '../../sample-project/story-model.ts';
import { scratch } from './hosts-kit.ts';

/** The story's first paper, held in the hand only: enough to see how the sample is made and kept. */
function shortStory() {
  const story = readStory();
  const papers = story.papers.slice(0, 1).map((paper) => ({
    ...paper,
    files: [],
    physical_only: true,
    links: [],
    subject: undefined,
  }));
  return { story: { ...story, papers, visits: [], words: [] }, day: asDay('2026-04-14') };
}

/** The sample as a host of that version has it. */
function sampleOf(root: string, version = '1'): SampleLot {
  const look = async (path: string) => {
    await using desk = openDesk({ program: 'test host' });
    return await sampleState(desk, new WindowHolds(), desk.tickets.offer(path));
  };
  return new SampleLot(root, { version, look, told: shortStory });
}

async function titlesIn(path: string): Promise<number> {
  await using desk = openDesk({ program: 'test' });
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(path) });
  return (await desk.ask('papers', {}, { lot })).papers.length;
}

it('makes the sample once, asked twice at once too, and tells how far it is', async () => {
  using at = scratch();
  const told: DeskEvents['progress'][] = [];
  const sample = sampleOf(at.root);
  const [first, second] = await Promise.all([sample.get((event) => told.push(event)), sample.get(() => undefined)]);
  expect(first).toEqual(second);
  expect(first.day).toBe('2026-04-14');
  expect(told[0]).toEqual({ request: 'sample-lot', what: 'Making the sample lot', done: 0, of: 1 });
  expect(told.at(-1)).toMatchObject({ what: 'The sample lot is ready', done: 1, of: 1 });
  expect(await titlesIn(first.path)).toBeGreaterThanOrEqual(1);
  told.length = 0;
  expect(await sample.get((event) => told.push(event))).toEqual(first);
  expect(told).toEqual([]);
});

it('makes the sample anew where it is damaged or of another version, sets the old one aside, and sweeps remains', async () => {
  using at = scratch();
  const { path } = await sampleOf(at.root).get(() => undefined);
  writeFileSync(join(path, 'lot.sqlite'), 'this was a lot once');
  mkdirSync(join(at.root, 'sample', 'making-left-behind'));
  let told = 0;
  await sampleOf(at.root).get(() => (told += 1));
  expect(told).toBeGreaterThan(0);
  expect(new Set(readdirSync(join(at.root, 'sample')))).toEqual(new Set(['lot', 'made.json', 'set-aside']));
  told = 0;
  await sampleOf(at.root, '2').get(() => (told += 1));
  expect(told).toBeGreaterThan(0);
  expect(await titlesIn(path)).toBeGreaterThanOrEqual(1);
});

it('leaves a sample that a window has open as it is, and leaves nothing half made when it is stopped', async () => {
  using at = scratch();
  const sample = sampleOf(at.root);
  const making = sample.get(() => void sample.close());
  await expect(making).rejects.toMatchObject({ code: 'stopped' });
  expect(existsSync(join(at.root, 'sample', 'lot'))).toBe(false);
  const { path } = await sampleOf(at.root).get(() => undefined);
  await using desk = openDesk({ program: 'a window' });
  await desk.ask('open-lot', { folder: desk.tickets.offer(path) });
  let told = 0;
  await sampleOf(at.root, '2').get(() => (told += 1));
  expect(told).toBe(0);
});

it('is looked over through the host’s own desk: a window that opens it meanwhile shares it and is not turned away', async () => {
  using at = scratch();
  const { path } = await sampleOf(at.root).get(() => undefined);
  await using desk = openDesk({ program: 'the host' });
  const holds = new WindowHolds();
  const folder = desk.tickets.offer(path);
  const looking = sampleState(desk, holds, folder);
  const { lot } = await desk.ask('open-lot', { folder });
  holds.open(lot, 'a window');
  expect(await looking).toBe('in use');
  expect((await desk.ask('read-lot', {}, { lot })).title).not.toBe('');
  // Asked again while it is open, it stays with the window that has it; when that is done, nobody holds it.
  expect(await sampleState(desk, holds, folder)).toBe('in use');
  holds.close(lot, 'a window');
  expect(await sampleState(desk, holds, folder)).toBe('sound');
  expect(await titlesIn(path)).toBeGreaterThanOrEqual(1);
});
