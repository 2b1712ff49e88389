import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import { PDFDocument } from 'pdf-lib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { filledText, formText } from '../../core/cli/print/forms.ts';
import { type Desk, openDesk } from '../../core/desk/desk.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import { paperFile } from '../../sample-project/story-model.ts';
import { writePdf } from './small-lot.ts';

/** The invented county's own form BD 7, in a lot of its own. One lot for all: each test goes on from the last. */
const practice = join(import.meta.dirname, '..', '..', 'sample-project', 'practice');
const root = mkdtempSync(join(tmpdir(), 'lotfile-forms-'));
let desk: Desk;
let lot: string;
const at = (on: Day) => ({ lot, on });
const [before, after]: readonly [Day, Day] = ['2025-05-20', '2026-04-07'];

beforeAll(async () => {
  desk = openDesk({ program: 'test', today: () => after });
  const layers = readdirSync(practice).map((name) => ({ name, text: readFileSync(join(practice, name), 'utf8') }));
  const folder = desk.tickets.offer(join(root, 'lot'));
  ({ lot } = await desk.ask('new-lot', { folder, title: 'Heron Lane', layers, on: '2025-05-01' }));
  await desk.ask('identity', { sort: 'owner', text: 'Hạnh Nguyễn Lindqvist and Ελένη Lindqvist' }, at(before));
  await desk.ask('identity', { sort: 'place', text: 'Lot 7, Heron Lane', to: '2025-06-02' }, at(before));
  await desk.ask('identity', { sort: 'place', text: '418 Heron Lane', from: '2025-06-03' }, at(before));
  await desk.ask('identity', { sort: 'parcel', text: '041-22-0070' }, at(before));
  for (const [question, answer] of [
    ['sewage', 'septic'],
    ['road', 'county'],
    ['owner_builds', 'yes'],
    ['bedrooms', '3'],
    ['gas', "don't know yet"],
  ] as const)
    await desk.ask('answer', { question, answer }, at(before));
});
afterAll(async () => {
  await desk.close();
  rmSync(root, { recursive: true, force: true });
});

async function keepBlank(): Promise<void> {
  const file = desk.tickets.offer(new URL(paperFile('BD7 blank.pdf')).pathname.replaceAll('%20', ' '));
  await desk.ask('keep', { papers: [{ files: [file], title: 'Form BD 7, blank' }] }, at(before));
}

async function textOf(ticket: string): Promise<string> {
  const library = await PDFiumLibrary.init();
  const document = await library.loadDocument(readFileSync(desk.tickets.look(ticket).path));
  const text = [...document.pages()].map((page) => page.getText()).join('\n');
  document.destroy();
  library.destroy();
  return text;
}

describe('an office’s form', () => {
  it('without its blank says what to keep; an errand without a form says so', async () => {
    const form = await desk.ask('form-fields', { errand: 'permit-apply' }, at(before));
    expect(form).toMatchObject({ form: 'application', mapped: true, boxes: [], candidates: [] });
    expect(form.blank).toBeUndefined();
    expect(formText(form)).toContain('Its blank is not in the lot: keep the office’s own fillable PDF.');
    await expect(desk.ask('fill-form', { errand: 'permit-apply' }, at(before))).rejects.toMatchObject({
      code: 'not found',
      message: 'The blank of "Application to Build a Dwelling, form BD 7" was not found among the papers.',
    });
    await expect(desk.ask('form-fields', { errand: 'septic-apply' }, at(before))).rejects.toMatchObject({
      code: 'wrong use',
      message: expect.stringContaining('asks for no form to fill'),
    });
  });

  it('is known by its boxes among the kept papers, and shown box by box', async () => {
    await desk.ask(
      'keep',
      { papers: [{ files: [desk.tickets.offer(await writePdf(join(root, 'x.pdf'), ['A note']))] }] },
      at(before),
    );
    await keepBlank();
    const form = await desk.ask('form-fields', { errand: 'permit-apply' }, at(before));
    expect(form.blank).toMatchObject({ title: 'Form BD 7, blank', how: 'its boxes', boxes: 36 });
    const box = (field: string) => form.boxes.find((one) => one.field === field);
    expect(box('owner_2')).toMatchObject({ title: 'Owner 2', state: 'filled', value: 'Ελένη Lindqvist' });
    expect(box('place')).toMatchObject({ title: 'Address of the work', value: 'Lot 7, Heron Lane', page: 0 });
    expect(box('gas')).toMatchObject({ state: 'missing', seat: { at: 'question', question: 'gas' } });
    expect(box('value')).toMatchObject({ state: 'missing', say: '"Cost breakdown" is not in the lot.' });
    expect(form.boxes[0]?.title).toBe('Owner 1');
    expect(form.counts.unmapped).toBe(0);
    expect(formText(form)).toContain('! missing  Gas will be used in the house');
  });

  it('is looked at before it is kept', async () => {
    const looked = await desk.ask('fill-form', { errand: 'permit-apply', look: true }, at(before));
    expect(looked).toMatchObject({ already: false, name: expect.stringContaining('filled-2025-05-20.pdf') });
    expect(looked.act).toBeUndefined();
    const shown = await PDFDocument.load(readFileSync(desk.tickets.look(looked.ticket).path));
    expect(shown.getForm().getTextField('owner_1').getText()).toBe('Hạnh Nguyễn Lindqvist');
    const { papers } = await desk.ask('papers', { kind: 'permit-application' }, at(before));
    expect(papers).toEqual([]);
  });

  it('is filled into an edition that the packet uses; the blank stays as it came', async () => {
    const filled = await desk.ask('fill-form', { errand: 'permit-apply' }, at(before));
    expect(filled.left.join(' ')).toContain('Gas will be used in the house: Not answered yet');
    expect(filledText(filled)).toContain('Read it through, print it, sign it');
    const page = await desk.ask('pages', { edition: filled.edition ?? '' }, at(before));
    expect(page.links).toMatchObject([{ word: 'made from', title: 'Form BD 7, blank' }]);
    const facts = Object.fromEntries(page.facts.map(({ fact, words }) => [fact, words]));
    expect(facts).toMatchObject({
      address: 'Lot 7, Heron Lane',
      owner: 'Hạnh Nguyễn Lindqvist and Ελένη Lindqvist',
      parcel: '041-22-0070',
      bedrooms: '3',
    });
    expect(page.facts.find(({ fact }) => fact === 'address')).toMatchObject({
      page: 0,
      place: { width: expect.any(Number) },
    });
    const errand = await desk.ask('errand', { errand: 'permit-apply' }, at(before));
    const need = errand.needs.find(({ need: id }) => id === 'application');
    expect(need).toMatchObject({ state: 'in hand', edition: filled.edition });
    expect(need?.findings.map(({ sort }) => sort)).toEqual(['mark missing', 'mark missing', 'mark missing']);
    const again = await desk.ask('fill-form', { errand: 'permit-apply' }, at(before));
    expect(again).toMatchObject({ already: true, edition: filled.edition });
  });

  it('goes along in the packet with every name on it', async () => {
    const made = await desk.ask('assemble', { errand: 'permit-apply', override: 'to see the application' }, at(before));
    const texts = await Promise.all(
      made.files.map(async ({ ticket, name }) => (name.endsWith('.pdf') ? textOf(ticket) : '')),
    );
    expect(texts.join('\n')).toContain('Application to Build a Dwelling');
    const packet = made.files.find(({ name }) => name.endsWith('.pdf'));
    const document = await PDFDocument.load(readFileSync(desk.tickets.look(packet?.ticket ?? '').path));
    const names = document
      .getForm()
      .getFields()
      .map((field) => field.getName());
    expect(names.some((name) => name.endsWith('owner_1'))).toBe(true);
  });

  it('is told as out of date when a fact is another, and filled anew in the place of the old copy', async () => {
    const stale = await desk.ask('errand', { errand: 'permit-apply' }, at(after));
    const said = stale.needs
      .flatMap(({ findings }) => findings)
      .filter(({ kind, sort }) => kind === 'permit-application' && sort === 'stale');
    expect(said.map(({ say }) => say)).toEqual([
      '"Building permit application" is out of date. Address of the work: filled with "Lot 7, Heron Lane", and it is "418 Heron Lane" by now.',
    ]);
    const form = await desk.ask('form-fields', { errand: 'permit-apply' }, at(after));
    expect(form.filled?.outOfDate).toEqual([
      { title: 'Address of the work', was: 'Lot 7, Heron Lane', now: '418 Heron Lane' },
    ]);
    const filled = await desk.ask('fill-form', { errand: 'permit-apply' }, at(after));
    const page = await desk.ask('pages', { edition: filled.edition ?? '' }, at(after));
    expect(page.links.map(({ word }) => word)).toEqual(['made from', 'replaces']);
    expect(page.current).toBe(true);
    const fresh = await desk.ask('errand', { errand: 'permit-apply' }, at(after));
    expect(
      fresh.needs
        .flatMap(({ findings }) => findings)
        .some(({ kind, sort }) => kind === 'permit-application' && sort === 'stale'),
    ).toBe(false);
    const { problems } = await desk.ask('verify', {}, at(after));
    expect(problems).toEqual([]);
    const { found } = await desk.ask('find', { text: 'Ελένη' }, at(after));
    expect(found.some(({ sort, title }) => sort === 'paper' && title === 'Building permit application')).toBe(true);
  });
});

describe('a form that nobody mapped', () => {
  const blank = join(root, 'homeowners.pdf');

  beforeAll(async () => {
    const document = await PDFDocument.create();
    const page = document.addPage([612, 792]);
    const form = document.getForm();
    for (const [n, name] of ['applicant', 'property_address', 'insurer_code', 'applicant_signature'].entries())
      form.createTextField(name).addToPage(page, { x: 60, y: 700 - n * 40, width: 240, height: 20 });
    writeFileSync(blank, await document.save());
  });

  it('is offered with what its boxes most likely ask for', async () => {
    await desk.ask('keep', { papers: [{ files: [desk.tickets.offer(blank)], title: 'Insurance form' }] }, at(after));
    const form = await desk.ask('form-fields', { errand: 'insurance-convert' }, at(after));
    expect(form).toMatchObject({ form: 'homeowners', mapped: false });
    expect(form.candidates.map(({ title }) => title)).toContain('Insurance form');
    const named = await desk.ask('form-fields', { errand: 'insurance-convert', blank: 'Insurance form' }, at(after));
    expect(named.boxes.map(({ field, state, offered }) => [field, state, offered[0]])).toEqual([
      ['applicant', 'unmapped', 'owner 1'],
      ['property_address', 'unmapped', 'place'],
      ['insurer_code', 'unmapped', undefined],
      ['applicant_signature', 'by hand', undefined],
    ]);
    expect(named.sources.map(({ is }) => is)).toContain('lot.completed_value');
    await expect(
      desk.ask('fill-form', { errand: 'insurance-convert', blank: 'Insurance form' }, at(after)),
    ).rejects.toMatchObject({ message: 'Nobody has said yet what goes into the form "homeowners".' });
  });

  it('is mapped by the owner once, known by its boxes from then on, and unmapped again by undo', async () => {
    const fills = { applicant: 'owner', property_address: 'place + parcel', insurer_code: 'leave' };
    await desk.ask('map-form', { form: 'homeowners', fills }, at(after));
    const form = await desk.ask('form-fields', { errand: 'insurance-convert' }, at(after));
    expect(form).toMatchObject({ mapped: true, blank: { title: 'Insurance form', how: 'its boxes' } });
    expect(form.boxes.map(({ value, state }) => value ?? state)).toEqual([
      'Hạnh Nguyễn Lindqvist and Ελένη Lindqvist',
      '418 Heron Lane, 041-22-0070',
      'left',
      'by hand',
    ]);
    const { layers } = await desk.ask('practice-words', {}, at(after));
    expect(layers.at(-1)).toEqual({ name: 'form homeowners, as you mapped it', sort: 'local' });
    await desk.ask('map-form', { form: 'homeowners', fills: { insurer_code: 'lot.owner_phone' } }, at(after));
    const more = await desk.ask('form-fields', { errand: 'insurance-convert' }, at(after));
    expect(more.boxes.map(({ state }) => state)).toEqual(['filled', 'filled', 'missing', 'by hand']);
    await desk.ask('undo', {}, at(after));
    await desk.ask('undo', {}, at(after));
    expect((await desk.ask('form-fields', { errand: 'insurance-convert' }, at(after))).mapped).toBe(false);
  });

  it('or taken over from a practice file, which may change nothing else', async () => {
    const give = (name: string, text: string) => {
      writeFileSync(join(root, name), text);
      return desk.tickets.offer(join(root, name));
    };
    const boxes = 'forms: { homeowners: { title: Insurance form, boxes: { applicant: owner } } }\n';
    const file = give('insurer.yaml', boxes);
    expect(await desk.ask('map-form', { form: 'homeowners', file }, at(after))).toMatchObject({ boxes: 1 });
    const more = give('insurer.yaml', boxes.replace('applicant: owner', 'applicant: owner 1, property_address: place'));
    expect(await desk.ask('map-form', { form: 'homeowners', file: more }, at(after))).toMatchObject({ boxes: 2 });
    const { layers } = await desk.ask('practice-words', {}, at(after));
    expect(layers.filter(({ name }) => name === 'insurer.yaml')).toHaveLength(1);
    const bold = give('bold.yaml', `${boxes}errands: { permit-apply: { fee: free } }\n`);
    await expect(desk.ask('map-form', { form: 'homeowners', file: bold }, at(after))).rejects.toMatchObject({
      message: '"bold.yaml" changes more than forms: errands.',
    });
    await desk.ask('undo', {}, at(after));
    await desk.ask('undo', {}, at(after));
  });

  it('takes no source that is nothing, and never a signature', async () => {
    const map = (fills: Record<string, string>) => desk.ask('map-form', { form: 'homeowners', fills }, at(after));
    await expect(map({ applicant: 'lot.ownr' })).rejects.toMatchObject({ code: 'bad practice' });
    await expect(map({ applicant_signature: 'owner' })).rejects.toMatchObject({
      message: expect.stringContaining('it is never filled'),
    });
    await expect(desk.ask('map-form', { form: 'nowhere', fills: {} }, at(after))).rejects.toMatchObject({
      message: 'No need here asks for a form called "nowhere".',
    });
  });
});
