import { join } from 'node:path';
import { expect, it } from 'vitest';
import { printAnswer } from '../../core/cli/print/print-answer.ts';
import { sampleLayers } from '../../sample-project/practice-layers.ts';
import { openSmallLot } from './small-lot.ts';

const form = 'Application to Build a Dwelling, form BD 7';

// Fixed bug: a paper kept without the number that a form has a box for said nothing of it.
it('a paper kept without the number a form writes says so at once, and what it is missed for, until it is added', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const folder = desk.tickets.offer(join(small.root, 'county'));
  const county = await desk.ask('new-lot', { folder, title: 'Heron Lane', layers: sampleLayers() });
  await desk.ask('answer', { question: 'sewage', answer: 'septic' }, county);
  const septic = { files: [await small.pdf('septic.pdf', ['Septic permit'])], kind: 'septic-permit' };
  const deed = { files: [await small.pdf('deed.pdf', ['Deed'])], kind: 'deed' };
  const answer = await desk.ask('keep', { papers: [septic, deed] }, county);
  expect(answer.kept.map(({ unnumbered }) => unnumbered)).toEqual([[form], []]);
  const edition = answer.kept[0]?.edition ?? '';
  const told = printAnswer('keep', answer);
  expect(told.replaceAll(/\s+/g, ' ')).toContain(`Kept without its number. It will be missed for: ${form}.`);
  expect(told).toContain(`correct ${edition} --number NUMBER`);
  expect(told.match(/without its number/g)).toHaveLength(1);
  await desk.ask('correct', { edition, number: 'EH-25-1' }, county);
  const again = { ...septic, files: [desk.tickets.offer(join(small.root, 'septic.pdf'))] };
  expect((await desk.ask('keep', { papers: [again] }, county)).kept[0]).toMatchObject({ unnumbered: [] });
});

it('where nothing on file asks for its number, and where all that asked is settled, nothing is missed', async () => {
  await using small = await openSmallLot();
  const { desk } = small;
  const well = { kind: 'well-permit', physicalOnly: true, files: [] };
  expect((await desk.ask('keep', { papers: [well] }, small)).kept[0]?.unnumbered).toEqual([]);
  const folder = desk.tickets.offer(join(small.root, 'county'));
  const county = await desk.ask('new-lot', { folder, title: 'Heron Lane', layers: sampleLayers() });
  const numbered = await desk.ask('keep', { papers: [{ ...well, number: 'W-1' }] }, county);
  expect(numbered.kept[0]?.unnumbered).toEqual([]);
  await desk.ask('visit', { errand: 'permit-apply', state: 'settled', day: '2026-04-10' }, county);
  const septic = { kind: 'septic-permit', physicalOnly: true, files: [] };
  expect((await desk.ask('keep', { papers: [septic] }, county)).kept[0]?.unnumbered).toEqual([]);
});
