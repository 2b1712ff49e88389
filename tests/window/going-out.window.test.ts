import { copyFileSync, existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import ICAL from 'ical.js';
import type { Download, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import { axeFindings, type OpenWindow, openWindow, sampleDay } from './harness.ts';

async function downloadOf(page: Page, press: () => Promise<void>): Promise<Download> {
  const [download] = await Promise.all([page.waitForEvent('download'), press()]);
  return download;
}

const button = (page: Page, name: string) => page.getByRole('button', { name, exact: true });

describe('out and in', () => {
  let open: OpenWindow;
  let bundle: string;
  beforeAll(async () => {
    // A day later than the lot is read as of: a backup is dated by the clock.
    open = await openWindow({ sample: true, today: '2026-04-15' });
    await open.openSample('history');
    await button(open.page, 'Back up as a bundle').waitFor();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('a bundle is made and saved by keyboard alone', async () => {
    const { page } = open;
    await button(page, 'Back up as a bundle').focus();
    const download = await downloadOf(page, () => page.keyboard.press('Enter'));
    expect(download.suggestedFilename()).toBe('heron-lane-2026-04-14.lot.zip');
    bundle = await download.path();
    expect(readFileSync(bundle).subarray(0, 2).toString()).toBe('PK');
    const told = page.locator('.notice', { hasText: 'Backed up: heron-lane-2026-04-14.lot.zip' });
    await told
      .getByText(/MB, the lot and \d+ files, each read back and whole\. It lies in your browser’s downloads/)
      .waitFor();
    expect(await told.getByRole('button', { name: /^Undo/ }).count()).toBe(0);
    await page.getByText(/Last backed up Wed 15 Apr 2026: heron-lane-2026-04-14\.lot\.zip/).waitFor();
    await open.go('#/sample/lot');
    await page
      .getByText(/Last backed up Wed 15 Apr 2026: heron-lane-2026-04-14\.lot\.zip, .*every file read back/)
      .waitFor();
    await open.go('#/sample/history');
    await button(page, 'Back up as a bundle').waitFor();
  });

  it('dates go into a calendar file, and the slip tells what is new since the last', async () => {
    const { page } = open;
    const download = await downloadOf(page, () => button(page, 'Put my dates into my calendar').click());
    const root = new ICAL.Component(ICAL.parse(readFileSync(await download.path(), 'utf8')));
    const slip = page.getByRole('dialog', { name: 'Your dates' });
    await slip.getByText('It is the first file.').waitFor();
    await slip.getByText(`${root.getAllSubcomponents('vevent').length} dates stand in`).waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await downloadOf(page, () => button(page, 'Put my dates into my calendar').click());
    await slip.getByText(/Since the file of 14 Apr 2026: nothing changed/).waitFor();
    await page.keyboard.press('Escape');
  });

  it('a bundle from the other computer is looked into, conflicts are chosen side by side, and undo takes it back', async () => {
    const { page } = open;
    const theirs = await workedOnThere(bundle, join(open.folder, 'there'));
    await renameHere(open, 'Heron Lane here');
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      button(page, 'Take over from a bundle').click(),
    ]);
    await chooser.setFiles(theirs);
    const slip = page.getByRole('dialog', { name: 'From the bundle' });
    await slip.getByText('1 record', { exact: true }).waitFor();
    expect(await slip.getByText('title: Heron Lane there').isVisible()).toBe(true);
    expect(await button(page, 'Choose 1 more first').isDisabled()).toBe(true);
    expect(await axeFindings(page)).toEqual([]);
    await slip.getByText('Take theirs').click();
    await slip.getByRole('button', { name: 'Take over' }).click();
    await page.getByText('Taken over from the bundle.').waitFor();
    await page.getByText(/^Taken over from a bundle of/).waitFor();
    await page.getByRole('button', { name: /^Take back: Taken over from a bundle/ }).click();
    await page.getByText(/^Undone: Taken over from a bundle/).waitFor();
  });

  it('the house record is written beside the lots, and where it is, is said', async () => {
    const { page } = open;
    await button(page, 'Write the house record').click();
    await page.getByText(/The house record with \d+ papers is in .*open index\.html there/).waitFor();
    const name = readdirSync(open.places.lots).find((each) => /house.record/i.test(each)) ?? '';
    const folder = join(open.places.lots, name);
    expect(['index.html', 'site-binder.pdf', 'SHA-256.txt'].every((file) => existsSync(join(folder, file)))).toBe(true);
  });

  it('beside a hold on today’s slip stands its hold sheet', async () => {
    const { page } = open;
    await open.go('#/sample/today');
    const name = 'Save the hold sheet: Before you dig';
    await button(page, name).waitFor();
    const download = await downloadOf(page, () => button(page, name).click());
    expect(download.suggestedFilename()).toMatch(/^hold-dig-.*\.pdf$/);
  });

  it('on the first page a bundle becomes a lot; a file that is none is told in place and leaves no second folder', async () => {
    const { page } = open;
    await open.go('#/');
    await page.getByRole('heading', { name: 'Restore a backup, or a bundle from another computer' }).waitFor();
    const choose = async (path: string): Promise<void> => {
      const [chooser] = await Promise.all([
        page.waitForEvent('filechooser'),
        button(page, 'Choose the file ...').click(),
      ]);
      await chooser.setFiles(path);
    };
    const wrong = join(open.folder, 'heron-lane-2026-04-14.lot.zip');
    writeFileSync(wrong, 'no bundle');
    await choose(wrong);
    await page.getByRole('alert').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    const right = join(open.folder, 'heron-lane-2026-04-15.lot.zip');
    copyFileSync(bundle, right);
    await choose(right);
    await page.getByText(/^Heron Lane is here: \d+ files, each as it was/).waitFor();
    await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor();
    expect(readdirSync(open.places.lots).filter((name) => name.startsWith('heron-lane'))).toContain('heron-lane');
    expect(readdirSync(open.places.lots)).not.toContain('heron-lane-2');
  });
});

/** Renames the open sample lot as another window would. */
async function renameHere(open: OpenWindow, title: string): Promise<void> {
  const { folder } = await open.host.sampleLot();
  const lot = await open.host.ask('open-lot', { folder }, {});
  if (!lot.ok || !('lot' in lot.answer)) throw new Error('The sample lot did not open.');
  const reply = await open.host.ask('rename-lot', { title }, { lot: lot.answer.lot, on: sampleDay });
  if (!reply.ok) throw new Error(reply.error.message);
}

/** The lot restored on another computer, renamed there, with a record more: its bundle. */
async function workedOnThere(bundle: string, folder: string): Promise<string> {
  const desk = openDesk({ program: 'the other computer', today: () => sampleDay });
  const there = await desk.ask('restore', { bundle: desk.tickets.offer(bundle), folder: desk.tickets.offer(folder) });
  await desk.ask('rename-lot', { title: 'Heron Lane there' }, there);
  await desk.ask('record', { sort: 'note', title: 'Well head found' }, there);
  const out = await desk.ask('bundle', {}, there);
  const path = `${folder}.zip`;
  copyFileSync(desk.tickets.look(out.ticket).path, path);
  await desk.close();
  return path;
}
