import { copyFileSync, mkdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import sharp from 'sharp';
import type { Desk } from '../../../core/desk/desk.ts';
import { writePdf } from '../small-lot.ts';

/** Files a person might hand over, sound and otherwise. */
export async function writeFiles(folder: string): Promise<readonly string[]> {
  mkdirSync(folder, { recursive: true });
  const at = (name: string): string => join(folder, name);
  await writePdf(at('deed.pdf'), ['Warranty deed, book 212 page 40', 'Second page']);
  await writePdf(at('septic.pdf'), ['Septic permit 24-118, 3 bedrooms, issued February 3, 2026']);
  writeFileSync(
    at('site.jpg'),
    await sharp({ create: { width: 90, height: 60, channels: 3, background: '#8a7' } })
      .jpeg()
      .toBuffer(),
  );
  writeFileSync(at('cut.pdf'), '%PDF-1.7\n1 0 obj\n<<');
  writeFileSync(at('letter.html.pdf'), '<html><body>Log in</body></html>');
  writeFileSync(at('empty.pdf'), '');
  writeFileSync(at('list.zip'), Buffer.from('504b0506000000000000000000000000000000000000', 'hex'));
  writeFileSync(at('binder.eml'), 'From: a@b.example\nSubject: Your binder\n\nSee you on Friday.\n');
  mkdirSync(at('a-folder.pdf'));
  symlinkSync(at('nowhere'), at('a-link.pdf'));
  const names = [
    'deed.pdf',
    'septic.pdf',
    'site.jpg',
    'cut.pdf',
    'letter.html.pdf',
    'empty.pdf',
    'list.zip',
    'binder.eml',
  ];
  return [...names, 'a-folder.pdf', 'a-link.pdf', 'gone.pdf', 'house.bundle', 'house.bundle.half'].map(at);
}

/** A lot with a little of everything, so that requests have something to be about. */
export async function beginLot(desk: Desk, folder: string, files: readonly string[]): Promise<void> {
  const { lot } = await desk.ask('new-lot', {
    folder: desk.tickets.offer(folder),
    title: 'Heron Lane',
    target: '2027-03-12',
  });
  const at = { lot };
  const file = (name: string): string => desk.tickets.offer(files.find((path) => basename(path) === name) ?? name);
  for (const [question, answer] of [
    ['sewage', 'septic'],
    ['water', 'well'],
    ['flood_zone', "don't know yet"],
  ] as const) {
    await desk.ask('answer', { question, answer }, at);
  }
  await desk.ask('identity', { sort: 'owner', text: 'Hạnh Nguyễn Lindqvist' }, at);
  await desk.ask('identity', { sort: 'parcel', text: '041-22-0070' }, at);
  const { subject } = await desk.ask('engage', { firm: 'Tern Electric', trade: 'electrical', from: '2026-05-01' }, at);
  await desk.ask(
    'keep',
    {
      papers: [
        { files: [file('deed.pdf')], kind: 'deed', issued: '2025-06-02', number: '212-40', marks: ['signed'] },
        { files: [file('septic.pdf')], kind: 'septic-permit', issued: '2026-02-03', facts: { bedrooms: '3' } },
      ],
    },
    at,
  );
  await desk.ask('standing', { edition: 'septic-permit', office: 'environmental-health', word: 'approved' }, at);
  const { row: line } = await desk.ask(
    'cost-line',
    { title: 'Wiring', trade: 'electrical', estimate: '18,000 usd', agreed: '17,400' },
    at,
  );
  const { row: invoice } = await desk.ask(
    'invoice',
    { line, amount: '4,000', payee: 'Tern Electric', firm: subject, held: '400' },
    at,
  );
  await desk.ask('payment', { invoice, amount: '3,600', day: '2026-04-02' }, at);
  await desk.ask('waiver', { invoice, kind: 'conditional progress', day: '2026-04-02', amount: '3,600' }, at);
  await desk.ask('draw', { number: 1, day: '2026-04-10', work: { [line]: '4,000' } }, at);
  await desk.ask('visit', { errand: 'permit-apply', state: 'sent back', comments: ['Show the setbacks'] }, at);
  await desk.ask('record', { sort: 'photo', title: 'Trench', day: '2026-04-01', file: file('site.jpg') }, at);
  await desk.ask('event', { event: 'construction-begun', day: '2026-04-03' }, at);
  await desk.ask('clerk-said', { rule: 'errands.permit-apply.needs.plans.copies', value: 3, who: 'R. Amsel' }, at);
  const { packet } = await desk.ask('assemble', { papers: ['deed'], recipient: 'Loan desk', title: 'As asked' }, at);
  await desk.ask('hand-over', { packet, to: 'Loan desk', how: 'at the counter', receipt: '4471' }, at);
  await desk.ask('lay-down', { files: [file('site.jpg')] }, at);
  const bundle = join(dirname(files[0] ?? folder), 'house.bundle');
  copyFileSync(desk.tickets.look((await desk.ask('bundle', {}, at)).ticket).path, bundle);
  writeFileSync(`${bundle}.half`, readFileSync(bundle).subarray(0, 9000));
  await desk.ask('close-lot', {}, at);
}
