import { cpSync, existsSync, mkdirSync } from 'node:fs';
import { dirname, join, parse, resolve } from 'node:path';
import { type DeskHost, openDesk } from '../desk/desk.ts';
import { asDay, isRequestName, LotfileError, type RequestName, requests } from '../desk/door.ts';
import { type Parsed, readArguments } from './arguments.ts';
import { commandHelp, generalHelp } from './help.ts';
import { printAnswer, printError, wouldBeRefused } from './print/print-answer.ts';
import { argumentOf, here, optionsFor, withPositionals } from './request-argument.ts';

/** How a run of the terminal ends. */
const exitCodes = { done: 0, error: 1, wrongUse: 2, wouldBeRefused: 3, stopped: 4 } as const;

/** The lot folder meant: --lot, else the folder we are in or the nearest above that holds a lot. */
function lotFolder(parsed: Parsed): string {
  if (parsed.common.lot !== undefined) return resolve(here(), parsed.common.lot);
  for (let folder = here(); ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'lot.sqlite'))) return folder;
    if (folder === dirname(folder)) break;
  }
  throw new LotfileError('wrong use', 'There is no lot in this folder or above it.', {
    next: 'Go to the lot folder, name it with --lot FOLDER, or make one: lotfile new-lot FOLDER --title NAME.',
  });
}

function progressLine(what: string, done: number, of: number): void {
  if (!process.stderr.isTTY) return;
  process.stderr.write(`\r\x1b[2K${what}: ${done} of ${of}${done === of ? '\r\x1b[2K' : ''}`);
}

interface Asked<N extends RequestName> {
  readonly name: N;
  readonly parsed: Parsed;
  readonly signal: AbortSignal;
}

async function ask<N extends RequestName>({ name, parsed, signal }: Asked<N>): Promise<number> {
  const host: DeskHost = { program: 'lotfile (terminal)' };
  await using desk = openDesk(host);
  desk.on('progress', ({ what, done, of }) => progressLine(what, done, of));
  const argument = argumentOf(name, withPositionals(name, parsed), (path) => desk.tickets.offer(path));
  const on = parsed.common.on === undefined ? undefined : asDay(parsed.common.on, '--on');
  const needsLot = requests[name].lot;
  const folder = needsLot ? desk.tickets.offer(lotFolder(parsed)) : undefined;
  const opened =
    folder === undefined ? undefined : await desk.ask('open-lot', { folder, takeOver: parsed.common.takeOver });
  for (const note of opened?.notes ?? []) process.stderr.write(`${note}\n`);
  const lot = opened?.lot;
  const answer = await desk.askUntyped(name, argument, { lot, on, signal });
  if (parsed.common.out !== undefined)
    copyOut(answer, resolve(here(), parsed.common.out), (ticket) => desk.tickets.look(ticket).path);
  const text = parsed.common.json ? JSON.stringify({ answer }, null, 2) : printAnswer(name, answer);
  process.stdout.write(text === '' ? '' : `${text}\n`);
  const refusals = listIn(answer, 'refused');
  if ((name === 'keep' || name === 'keep-parts' || name === 'lay-down') && refusals.length > 0)
    return refusals.every(isWrongUse) ? exitCodes.wrongUse : exitCodes.error;
  if (name === 'verify' && hasProblems(answer)) return exitCodes.error;
  return wouldBeRefused(answer) ? exitCodes.wouldBeRefused : exitCodes.done;
}

function listIn(answer: unknown, key: string): readonly unknown[] {
  const value: unknown = typeof answer === 'object' && answer !== null ? Reflect.get(answer, key) : undefined;
  return Array.isArray(value) ? value : [];
}

function fieldOf(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined;
}

function isWrongUse(refusal: unknown): boolean {
  return fieldOf(fieldOf(refusal, 'error'), 'code') === 'wrong use';
}

/** A file the lot knows nothing of does no harm (a packet whose keeping was undone); everything else does. */
function hasProblems(answer: unknown): boolean {
  return listIn(answer, 'problems').some((problem) => fieldOf(problem, 'sort') !== 'orphan');
}

/** What lies there already is kept: "packet.pdf", then "packet (2).pdf". */
function freeName(folder: string, name: string): string {
  const { name: stem, ext } = parse(name);
  for (let n = 1; ; n += 1) {
    const path = join(folder, n === 1 ? name : `${stem} (${n})${ext}`);
    if (!existsSync(path)) return path;
  }
}

function copyOut(answer: unknown, out: string, pathOf: (ticket: string) => string): void {
  mkdirSync(out, { recursive: true });
  // One file alone (an errand sheet, a draft) is the answer itself.
  for (const file of [answer, ...listIn(answer, 'files')]) {
    if (typeof file === 'object' && file !== null && 'ticket' in file && 'name' in file) {
      cpSync(pathOf(String(file.ticket)), freeName(out, String(file.name)));
    }
  }
}

function exitCodeOf(error: LotfileError): number {
  if (error.code === 'stopped') return exitCodes.stopped;
  return error.code === 'wrong use' ? exitCodes.wrongUse : exitCodes.error;
}

/** Runs one command line; returns the exit code. Ctrl-C stops the work and leaves nothing half done. */
export async function runTerminal(words: readonly string[]): Promise<number> {
  const [name, ...rest] = words;
  const stop = new AbortController();
  const onInterrupt = (): void => stop.abort();
  process.once('SIGINT', onInterrupt);
  try {
    if (name === undefined || name === '--help' || name === 'help') {
      process.stdout.write(`${generalHelp()}\n`);
      return name === undefined ? exitCodes.wrongUse : exitCodes.done;
    }
    if (!isRequestName(name)) {
      throw new LotfileError('wrong use', `There is no "${name}".`, { next: 'See what there is: lotfile --help.' });
    }
    const options = optionsFor(name);
    const parsed = readArguments(rest, options);
    if (parsed.common.help) {
      process.stdout.write(`${commandHelp(name, options)}\n`);
      return exitCodes.done;
    }
    return await ask({ name, parsed, signal: stop.signal });
  } catch (thrown) {
    const error = LotfileError.from(thrown);
    if (words.includes('--json')) process.stdout.write(`${JSON.stringify({ error }, null, 2)}\n`);
    else process.stderr.write(`${printError(error)}\n`);
    return exitCodeOf(error);
  } finally {
    process.removeListener('SIGINT', onInterrupt);
  }
}
