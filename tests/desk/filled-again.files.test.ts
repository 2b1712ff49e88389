import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFDocument } from 'pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Desk, openDesk } from '../../core/desk/desk.ts';
import type { Day } from '../../core/vocabulary/days.ts';

/** An insurer's form of our own making, filled again and again in one lot: each test goes on from the last. */
const practice = join(import.meta.dirname, '..', '..', 'sample-project', 'practice');
const root = mkdtempSync(join(tmpdir(), 'lotfile-again-'));
const form = { errand: 'insurance-convert' };
let desk: Desk;
let lot: string;
const on = (): { readonly lot: string; readonly on: Day } => ({ lot, on: '2026-04-07' });

/** A form with one page before its own where `letter` says so. */
async function writeForm(name: string, letter?: string): Promise<string> {
  const document = await PDFDocument.create();
  if (letter !== undefined) document.addPage([612, 792]).drawText(letter, { x: 60, y: 700 });
  const page = document.addPage([612, 792]);
  page.drawText(name, { x: 60, y: 760 });
  const boxes = document.getForm();
  for (const [n, box] of ['owner_1', 'owner_2', 'beds', 'firm_1'].entries())
    boxes.createTextField(box).addToPage(page, { x: 60, y: 700 - n * 40, width: 240, height: 20 });
  const where = boxes.createDropdown('where');
  where.addOptions(['418 Heron Lane', 'elsewhere']);
  where.addToPage(page, { x: 60, y: 500, width: 30, height: 14 });
  const path = join(root, `${name}.pdf`);
  writeFileSync(path, await document.save());
  return desk.tickets.offer(path);
}

beforeAll(async () => {
  desk = openDesk({ program: 'test', today: () => '2026-04-07' });
  const layers = readdirSync(practice).map((name) => ({ name, text: readFileSync(join(practice, name), 'utf8') }));
  ({ lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(join(root, 'lot')), title: 'Heron Lane', layers }));
  await desk.ask('identity', { sort: 'owner', text: 'A. Roe and B. Roe' }, on());
  await desk.ask('identity', { sort: 'place', text: '418 Heron Lane' }, on());
  await desk.ask('answer', { question: 'bedrooms', answer: '3' }, on());
  const fills = { owner_1: 'owner 1', owner_2: 'owner 2', beds: 'lot.bedrooms' };
  await desk.ask('map-form', { form: 'homeowners', fills }, on());
});
afterAll(async () => {
  await desk.close();
  rmSync(root, { recursive: true, force: true });
});

const fill = () => desk.ask('fill-form', form, on());
const changed = async () => (await desk.ask('form-fields', form, on())).filled?.outOfDate;
const bedrooms = (answer: string) => desk.ask('answer', { question: 'bedrooms', answer }, on());

describe('pages of a file', () => {
  it('are no blank: what else stands in it would go along to the office', async () => {
    const files = [await writeForm('bundle', 'PRIVATE LETTER')];
    await desk.ask('keep', { papers: [{ files, title: 'Insurance form', pages: ['2'] }] }, on());
    const seen = await desk.ask('form-fields', form, on());
    expect(seen.blank).toBeUndefined();
    expect(seen.candidates).toEqual([]);
    await expect(desk.ask('fill-form', { ...form, blank: 'Insurance form' }, on())).rejects.toMatchObject({
      message: '"Insurance form" is only a part of its file, or of several files.',
      next: 'Keep the form as a file of its own: filling takes the whole file, and all its pages would go along.',
    });
    await desk.ask('keep', { papers: [{ files: [await writeForm('alone')], title: 'Form alone' }] }, on());
    expect((await desk.ask('form-fields', form, on())).blank).toMatchObject({ title: 'Form alone', boxes: 5 });
  });
});

describe('a form filled again', () => {
  let first: string | undefined;

  it('after an answer went and came back is a copy of its own that counts', async () => {
    const one = await fill();
    first = one.edition;
    await bedrooms('4');
    expect(await changed()).toEqual([{ title: 'Beds', was: '3', now: '4' }]);
    const two = await fill();
    await bedrooms('3');
    const three = await fill();
    expect([one, two, three].map(({ already }) => already)).toEqual([false, false, false]);
    expect(new Set([one.edition, two.edition, three.edition]).size).toBe(3);
    const page = await desk.ask('pages', { edition: three.edition ?? '' }, on());
    expect(page.current).toBe(true);
    expect(page.links.map(({ word }) => word)).toEqual(['made from', 'replaces']);
    expect(await changed()).toEqual([]);
    expect(await fill()).toMatchObject({ already: true, edition: three.edition });
  });

  it('after its copy was removed for good is a new one, with its facts', async () => {
    await desk.ask('purge', { edition: first ?? '', reason: 'private', sure: true }, on());
    const fresh = await fill();
    expect(fresh.already).toBe(false);
    const page = await desk.ask('pages', { edition: fresh.edition ?? '' }, on());
    expect(page.current).toBe(true);
    expect(page.pages).toHaveLength(1);
    expect(await changed()).toEqual([]);
    expect((await desk.ask('verify', {}, on())).problems).toEqual([]);
  });
});

describe('an owner who came in or is gone', () => {
  it('puts the filled copy out of date, in words that say so', async () => {
    await desk.ask('identity', { sort: 'owner', text: 'C. Roe', from: '2026-04-01' }, on());
    const papers = await desk.ask('form-fields', form, on());
    expect(papers.filled?.outOfDate.map(({ was, now }) => [was, now])).toEqual([
      ['A. Roe', 'C. Roe'],
      ['B. Roe', 'A. Roe and B. Roe'],
    ]);
    await desk.ask('undo', {}, on());
    expect(await changed()).toEqual([]);
  });
});

describe('a list of choices', () => {
  it('that has no room for the one meant is told, and the rest of the form is filled', async () => {
    await desk.ask('map-form', { form: 'homeowners', fills: { where: 'place' } }, on());
    const seen = await desk.ask('form-fields', form, on());
    expect(seen.boxes.find(({ field }) => field === 'where')).toMatchObject({
      state: 'too long',
      say: '"418 Heron Lane" doesn\'t fit this box with letters that can be read.',
    });
    const filled = await fill();
    expect(filled.boxes).toBe(3);
    expect(filled.left.join(' ')).toContain('"418 Heron Lane" doesn\'t fit this box');
  });
});

describe('a file of mappings', () => {
  const boxes = 'forms: { homeowners: { title: H, boxes: { owner_1: owner } } }\n';
  const give = (text: string) => {
    writeFileSync(join(root, 'mine.yaml'), text);
    return desk.ask('map-form', { form: 'homeowners', file: desk.tickets.offer(join(root, 'mine.yaml')) }, on());
  };
  const asked = async () => (await desk.ask('read-lot', {}, on())).questions.find(({ id }) => id === 'sewage')?.ask;

  it('changes no question and no condition that stands already, nor the title', async () => {
    const before = await asked();
    const other = 'sewage: { ask: Something else?, sort: choice, choices: [septic, sewer], why: w., where: w. }';
    await expect(give(`questions: { ${other} }\n${boxes}`)).rejects.toMatchObject({
      message: '"mine.yaml" changes what stands here already: sewage.',
      next: expect.stringContaining('an id of its own'),
    });
    await expect(give(`title: Mine\n${boxes}`)).rejects.toMatchObject({
      message: '"mine.yaml" changes more than forms: title.',
    });
    expect(await asked()).toBe(before);
  });

  it('brings questions of its own, and may be given again with others', async () => {
    const dogs = (ask: string) => `questions: { dogs: { ask: ${ask}, sort: count, why: w., where: w. } }\n${boxes}`;
    await give(dogs('How many dogs?'));
    await give(dogs('How many dogs live there?'));
    const { questions } = await desk.ask('read-lot', {}, on());
    expect(questions.find(({ id }) => id === 'dogs')?.ask).toBe('How many dogs live there?');
  });

  it('too large for any practice is not even read', async () => {
    await expect(give(`${boxes}${'#'.repeat(1_000_001)}`)).rejects.toMatchObject({
      message: '"mine.yaml" is larger than any practice file.',
    });
  });
});
