import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { axeFindings, type OpenWindow, openWindow } from './harness.ts';

describe('the first run', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('says what the program is for and offers the ways in', async () => {
    await open.page.getByRole('heading', { name: 'Lotfile' }).waitFor();
    expect(await open.page.getByText('Nobody makes the same trip twice.').isVisible()).toBe(true);
    expect(await open.page.getByRole('button', { name: 'Open the sample lot' }).isVisible()).toBe(true);
    expect(await axeFindings(open.page)).toEqual([]);
  });

  it('asks for a name where none was given, in place', async () => {
    await open.page.getByRole('button', { name: 'Begin' }).click();
    await open.page.getByText('Give the lot a name you will know it by.').waitFor();
  });

  it('begins a lot with the keyboard alone and leads to its first boxes', async () => {
    const { page } = open;
    await page.getByRole('textbox', { name: 'What do you call it?' }).focus();
    await page.keyboard.type('Heron Lane');
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Heron Lane' }).waitFor();
    await page.getByText('10 to answer.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
  });

  it('says why each question is asked and takes "don’t know yet" for an answer', async () => {
    const { page } = open;
    await page.getByRole('button', { name: /Where will the waste water go/ }).click();
    await page.getByText('it sets how many bedrooms you may build').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    // A choice notes itself, and the next box that waits is opened.
    await page.getByRole('button', { name: 'septic', exact: true }).click();
    await page.getByRole('dialog', { name: 'Where will the drinking water come from?' }).waitFor();
    await page.getByRole('button', { name: 'leave it, and next' }).click();
    await page.getByRole('dialog', { name: /Which flood zone/ }).waitFor();
    await page.getByRole('button', { name: 'I don’t know yet' }).click();
    await page.getByRole('dialog', { name: 'Are you borrowing to build?' }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByText('8 to answer.').waitFor();
    await page.getByRole('button', { name: /Which flood zone.*don’t know yet/ }).waitFor();
  });

  it('tells in place what it can’t read, and keeps what was typed', async () => {
    const { page } = open;
    await page.getByRole('button', { name: /How many bedrooms/ }).click();
    await page.getByRole('textbox', { name: 'Your answer' }).fill('three or four');
    await page.keyboard.press('Enter');
    await page
      .getByRole('alert')
      .getByText(/can't be read/)
      .waitFor();
    expect(await page.getByRole('textbox', { name: 'Your answer' }).inputValue()).toBe('three or four');
    await page.getByRole('textbox', { name: 'Your answer' }).fill('3');
    // Typing again takes the complaint away; Enter notes.
    await page.getByRole('alert').waitFor({ state: 'detached' });
    await page.keyboard.press('Enter');
    await page.getByRole('dialog', { name: /How large is the heated floor area/ }).waitFor();
    await page.keyboard.press('Escape');
    await page.getByText('7 to answer.').waitFor();
  });

  it('takes an answer back from the notice, and with Ctrl+Z', async () => {
    const { page } = open;
    const notices = page.getByRole('region', { name: 'Notices' });
    await notices.getByRole('button', { name: /^Undo: How many bedrooms/ }).click();
    await page.getByText('8 to answer.').waitFor();
    await page.keyboard.press('Control+z');
    await page.getByText('9 to answer.').waitFor();
  });

  it('lists the lot on the first page from then on, and opens it again', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Another lot' }).click();
    await page.getByRole('button', { name: 'Open Heron Lane' }).click();
    await page.locator('main.screen h1').waitFor();
    expect(page.url()).toContain('/today');
  });

  // Fixed bug: in the browser a lot that was left out of the list could only be had back by starting the host anew.
  it('leaves a lot out of the list and has it back from the first page', async () => {
    const { page } = open;
    await page.getByRole('button', { name: 'Another lot' }).click();
    await page.getByRole('button', { name: 'leave out Heron Lane' }).click();
    const out = page.getByRole('button', { name: 'Lots left out: 1' });
    await out.waitFor();
    expect(await page.getByRole('button', { name: 'Open Heron Lane' }).count()).toBe(0);
    await out.click();
    await page.getByText('Opening one puts it back on your list.').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Open heron-lane' }).click();
    await page.locator('main.screen h1').waitFor();
    await page.getByRole('button', { name: 'Another lot' }).click();
    await page.getByRole('button', { name: 'Open Heron Lane' }).waitFor();
    expect(await page.getByRole('button', { name: /^Lots left out/ }).count()).toBe(0);
  });
});

describe('the sample lot', () => {
  it('is laid out from the first page, and read as of its own day', async () => {
    await using open = await openWindow({ sample: true, today: '2027-01-05' });
    await open.page.getByRole('button', { name: 'Open the sample lot' }).click();
    await open.page.getByText('read as of').waitFor();
    await open.page.getByText('Tue 14 Apr 2026').first().waitFor();
    await open.page.reload();
    await open.page.getByText('Tue 14 Apr 2026').first().waitFor();
  });
});

describe('the ways in to a lot that is here', () => {
  let open: OpenWindow;
  beforeAll(async () => {
    open = await openWindow();
    const { desk } = open.host;
    for (const name of ['heron-lane', 'marsh-road']) {
      const folder = join(open.places.lots, name);
      const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(folder), title: name });
      const deed = { kind: 'deed', title: `Deed of ${name}`, files: [], physicalOnly: true };
      await desk.askUntyped('keep', { papers: [deed] }, { lot });
      await desk.ask('close-lot', {}, { lot });
    }
    await open.page.reload();
  });
  afterAll(async () => {
    await open[Symbol.asyncDispose]();
  });

  it('offers a lot folder that lies where lots lie, though it was never opened in a browser here', async () => {
    const { page } = open;
    await page.getByRole('heading', { name: 'Open a lot of this computer' }).waitFor();
    await page.getByText('npm start -- --lot FOLDER').waitFor();
    await page.getByRole('button', { name: 'Open marsh-road' }).click();
    await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor();
  });

  const spoil = (file: string): Buffer => {
    const whole = readFileSync(file);
    writeFileSync(file, Buffer.concat([Buffer.alloc(200, 7), whole.subarray(200)]));
    return whole;
  };

  it('offers to mend a lot whose database is damaged, says what can’t be saved, and opens it mended', async () => {
    const { page } = open;
    const folder = join(open.places.lots, 'heron-lane');
    const whole = spoil(join(folder, 'lot.sqlite'));
    rmSync(join(folder, 'copies'), { recursive: true, force: true });
    mkdirSync(join(folder, 'copies'));
    writeFileSync(join(folder, 'copies', '2026-04-13.sqlite'), whole);
    await open.go('#/');
    await page.reload();
    await page.getByRole('button', { name: 'Open heron-lane' }).click();
    await page.getByText('can’t be read is gone, and you are told what it is').waitFor();
    expect(await axeFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Mend this lot' }).click();
    await page.getByText('heron-lane was mended.').waitFor();
    await page.getByText(/Taken from the copy 2026-04-13\.sqlite: .*\bpapers \(1\)/).waitFor();
    await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor();
    await page.getByRole('link', { name: /^Papers/ }).click();
    await page.getByRole('main').getByText('Deed of heron-lane').first().waitFor();
    expect(readFileSync(join(folder, 'lot.damaged-1.sqlite')).subarray(0, 200)).toEqual(Buffer.alloc(200, 7));
  });

  it('mends no lot that another window has open: says to close it there, and mends it then', async () => {
    const { page } = open;
    const other = await open.context.newPage();
    await other.goto(page.url());
    await other.getByRole('main').getByText('Deed of heron-lane').first().waitFor();
    spoil(join(open.places.lots, 'heron-lane', 'lot.sqlite'));
    await page.getByRole('link', { name: /^What was done/ }).click();
    await page.getByRole('button', { name: 'Mend this lot' }).click();
    await page.getByText('Close its other windows, then mend it.').first().waitFor();
    await other.getByRole('button', { name: 'Another lot' }).click();
    await other.getByRole('button', { name: 'Open heron-lane' }).waitFor();
    await page.getByRole('button', { name: 'Mend this lot' }).click();
    await page.getByRole('heading', { level: 1, name: 'Today' }).waitFor();
    expect(existsSync(join(open.places.lots, 'heron-lane', 'lot.damaged-2.sqlite'))).toBe(true);
  });

  it('offers no mending where it would leave tables out: says what to do instead', async () => {
    const { page } = open;
    await open.go('#/');
    await page.getByRole('button', { name: 'Open heron-lane' }).waitFor();
    const db = new Database(join(open.places.lots, 'marsh-road', 'lot.sqlite'));
    db.exec("UPDATE migration SET sha256 = 'abc' WHERE seq = 1");
    db.close();
    await page.getByRole('button', { name: 'Open marsh-road' }).click();
    await page.getByText('Work on from your newest backup, and keep this folder as it is.').waitFor();
    expect(await page.getByRole('button', { name: 'Mend this lot' }).count()).toBe(0);
  });
});

it('two lots of one name are told apart by their folders', async () => {
  await using open = await openWindow();
  for (let n = 0; n < 2; n += 1) {
    const made = await open.host.act('make-folder', { title: 'Thistle Fork' });
    if (!made.ok || !('folder' in made.answer)) throw new Error('No folder was made.');
    const folder = String(made.answer.folder);
    const lot = await open.host.ask('new-lot', { folder, title: 'Thistle Fork' }, {});
    expect(lot.ok).toBe(true);
  }
  await open.page.reload();
  await open.page.getByRole('button', { name: 'Open Thistle Fork, folder thistle-fork-2', exact: true }).waitFor();
  await open.page.getByRole('button', { name: 'Open Thistle Fork, folder thistle-fork', exact: true }).waitFor();
  await open.page.getByText('Thistle Fork, folder thistle-fork-2', { exact: true }).waitFor();
});
