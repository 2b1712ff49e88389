import { cpSync, mkdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow, sampleDay } from './harness.ts';

/** Overwrites a page of the database as a failing disk does: the first, or the root of a table or index. */
function spoil(file: string, name?: string): void {
  const db = new Database(file, { readonly: true });
  const size = Number(db.pragma('page_size', { simple: true }));
  const rootOf = db.prepare<[string], number>('SELECT rootpage FROM sqlite_schema WHERE name = ?').pluck();
  const page = name === undefined ? 1 : (rootOf.get(name) ?? 0);
  db.close();
  expect(page).toBeGreaterThan(0);
  writeFileSync(file, readFileSync(file).fill(0xa5, (page - 1) * size, page * size));
}

describe('a lot that was found damaged in the window', () => {
  let open: OpenWindow;
  let whole: string;
  const folder = (): string => join(open.places.lots, 'fern-hill');
  const file = (): string => join(folder(), 'lot.sqlite');

  /** The lot as it was, open nowhere; its database changed; the window at an address of it, freshly loaded. */
  async function comeTo(change: () => void): Promise<Page> {
    await open.page.goto('about:blank');
    await open.stopHost();
    rmSync(folder(), { recursive: true });
    cpSync(whole, folder(), { recursive: true });
    change();
    await open.startHost();
    open.host.recents.remember(folder(), 'Fern Hill', sampleDay);
    // Opened once: a page that was left a moment ago would hold the lot still, and nothing in use is mended.
    await open.page.goto(`${open.loopback.address()}#/${open.host.recents.list()[0]?.key}/today`);
    return open.page;
  }

  async function mended(page: Page): Promise<void> {
    await page.getByRole('button', { name: 'Mend this lot' }).click();
    await page.getByText('Fern Hill was mended.').waitFor();
    await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor();
    expect(await page.getByRole('button', { name: 'Mend this lot' }).count()).toBe(0);
    await page.getByRole('link', { name: /^Papers/ }).click();
    await page.getByRole('main').getByText('Deed of Fern Hill').first().waitFor();
  }

  beforeAll(async () => {
    open = await openWindow();
    const { desk } = open.host;
    const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(folder()), title: 'Fern Hill' });
    const deed = { kind: 'deed', title: 'Deed of Fern Hill', files: [], physicalOnly: true };
    await desk.askUntyped('keep', { papers: [deed] }, { lot });
    await desk.ask('close-lot', {}, { lot });
    mkdirSync(join(folder(), 'copies'), { recursive: true });
    cpSync(file(), join(folder(), 'copies', '2026-04-13.sqlite'));
    whole = join(open.folder, 'whole');
    cpSync(folder(), whole, { recursive: true });
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('on the slip for today: the day’s copy can’t be made, and mending is offered there', async () => {
    const page = await comeTo(() => spoil(file(), 'record'));
    const trouble = page.getByRole('main').getByRole('alert').filter({ hasText: 'lot.sqlite is damaged.' });
    await trouble.getByText('The damaged one is kept beside it.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await mended(page);
  });

  it('at its own address: it can’t be opened, and mending is offered above the first page', async () => {
    const page = await comeTo(() => spoil(file()));
    await mended(page);
  });

  it('whose lot.sqlite is empty is mended from its copy', async () => {
    const page = await comeTo(() => truncateSync(file(), 0));
    await page.getByText('lot.sqlite in this folder is empty.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await mended(page);
  });

  it('whose lot.sqlite is empty, without a copy, is told what to do next: no mending that can’t help', async () => {
    const page = await comeTo(() => {
      truncateSync(file(), 0);
      rmSync(join(folder(), 'copies'), { recursive: true });
    });
    await page.getByText('restore your newest backup into a new folder').waitFor();
    expect(await page.getByRole('button', { name: 'Mend this lot' }).count()).toBe(0);
    // The way to restore stands on the same page.
    await page.getByRole('heading', { name: 'Restore a backup, or a bundle from another computer' }).waitFor();
  });
});
