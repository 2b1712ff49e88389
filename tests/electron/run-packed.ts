/**
 * Runs the packed program as Electron would, far enough to make a lot, keep a paper and assemble a packet, and prints
 * what came of it: `node --import electron-hook.ts run-packed.ts PROGRAM PAPER PHOTO`.
 */
import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { WindowPort } from '../../core/desk/contract/window-port.ts';
import { exposed, fake, paths } from './electron-module.ts';
import { answered } from './hosts-answers.ts';

const [, , program = '', paper = '', photo = ''] = process.argv;

function isPort(value: unknown): value is WindowPort {
  return typeof value === 'object' && value !== null && 'ask' in value && 'act' in value;
}

async function firstWindow(): Promise<void> {
  for (let n = 0; n < 500 && fake.windows.length === 0; n += 1) await new Promise((done) => setTimeout(done, 20));
}

async function served(address: string): Promise<{ readonly status: number; readonly bytes: Buffer }> {
  const response = fake.record.serve?.(new Request(new URL(address, 'lotfile://window/')));
  if (response === undefined) throw new Error('Nothing is served.');
  return { status: response.status, bytes: Buffer.from(await response.arrayBuffer()) };
}

await import(pathToFileURL(join(program, 'electron', 'main', 'main.js')).href);
await firstWindow();
createRequire(import.meta.url)(join(program, 'electron', 'preload', 'preload.cjs'));
const port = exposed.get('lotfile');
if (!isPort(port)) throw new Error('The preload script gave the page no port.');

const page = (await served('/')).bytes.toString();
const script = /src="(\/assets\/[^"]+\.js)"/.exec(page)?.[1] ?? '/none';
const dropped = new File([readFileSync(paper)], 'as the page says.pdf');
paths.set(dropped, paper);
const [taken] = await port.offer([dropped]);
if (taken === undefined) throw new Error('The file was not taken.');
const { ticket } = answered(taken);
const { folder } = answered(await port.act('make-folder', { title: 'Packed' }));
const { lot } = answered(await port.ask('new-lot', { folder, title: 'Packed' }, {}));
const kept = answered(await port.ask('keep', { papers: [{ files: [ticket], kind: 'deed' }] }, { lot }));
const shot = new File([readFileSync(photo)], 'photo.heic');
paths.set(shot, photo);
const [shown] = await port.offer([shot]);
if (shown === undefined) throw new Error('The photo was not taken.');
const phone = { files: [answered(shown).ticket], kind: 'other', title: 'Phone' };
const pictured = answered(await port.ask('keep', { papers: [phone] }, { lot }));
const packet = answered(await port.ask('assemble', { papers: ['deed'], title: 'For the lender' }, { lot }));
const files = await Promise.all(
  packet.files.map(async (file) => {
    const { status, bytes } = await served(port.address(file.ticket));
    return { name: file.name, status, bytes: bytes.length, head: bytes.subarray(0, 5).toString() };
  }),
);
/** Letters are read in a thread of the worker program, with data and WebAssembly from packages. */
async function readsLetters(): Promise<boolean> {
  const path = join(program, 'core/intake/ocr/letter-reader.js');
  if (!existsSync(path)) return false;
  const reader: unknown = await import(pathToFileURL(path).href);
  const opened: unknown = await Reflect.get(Object(Reflect.get(Object(reader), 'LetterReader')), 'open')();
  await Reflect.get(Object(opened), 'close').call(opened);
  return true;
}

/** Pages that the second PDF reader finds in the paper. */
async function readsTwice(): Promise<unknown> {
  const reader: unknown = await import(pathToFileURL(join(program, 'core/reader/second-reader.js')).href);
  const sight: unknown = await Reflect.get(Object(reader), 'secondSight')(paper);
  return Reflect.get(Object(sight), 'pageCount');
}

const answer = {
  second: await readsTwice(),
  photo: pictured.kept.map(({ title, pages }) => ({ title, pages })),
  letters: await readsLetters(),
  file: basename(taken.ok ? taken.answer.name : ''),
  card: answered(await port.act('host', {})),
  kept: kept.kept.map(({ title, pages }) => ({ title, pages })),
  refused: kept.refused,
  files,
  script: (await served(script)).status,
  forked: fake.record.forked,
  problems: answered(await port.ask('verify', {}, { lot })).problems,
};
const gone = new Promise((done) => fake.app.once('gone', done));
fake.parts.app.quit();
await gone;
process.stdout.write(`${JSON.stringify(answer)}\n`);
