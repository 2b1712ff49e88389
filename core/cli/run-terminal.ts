import { cpSync, existsSync, mkdirSync, readFileSync } from 'node:fs';
import { basename, dirname, join, resolve } from 'node:path';
import { type DeskHost, openDesk } from '../desk/desk.ts';
import { asDay, isRequestName, LotfileError, paperToKeep, type RequestName, requests } from '../desk/door.ts';
import { type Parsed, readArguments } from './arguments.ts';
import { commandHelp, generalHelp } from './help.ts';
import { type Option, optionsOf } from './options.ts';
import { positionals } from './positionals.ts';
import { printAnswer, printError, wouldBeRefused } from './print/print-answer.ts';

/** How a run of the terminal ends. */
const exitCodes = { done: 0, error: 1, wrongUse: 2, wouldBeRefused: 3, stopped: 4 } as const;

/** `keep` describes one paper; the terminal repeats it for every file, or joins them with --together. */
const together: Option = {
  field: 'together',
  word: 'together',
  takes: 'flag',
  many: false,
  required: false,
  choices: [],
};
const linkWords = ['replaces', 'amends', 'extends', 'continues', 'made-from'] as const;
const linkOptions: readonly Option[] = linkWords.map((word) => ({
  field: word,
  word,
  takes: 'words',
  many: true,
  required: false,
  choices: [],
}));
const layerOption: Option = {
  field: 'layers',
  word: 'amendments',
  takes: 'file',
  many: true,
  required: false,
  choices: [],
};

function optionsFor(name: RequestName): readonly Option[] {
  if (name === 'keep') return [...optionsOf(paperToKeep), ...linkOptions, together];
  return name === 'new-lot' ? [...optionsOf(requests[name].in), layerOption] : optionsOf(requests[name].in);
}

/** The lot folder meant: --lot, else the folder we are in or the nearest above that holds a lot. */
function lotFolder(parsed: Parsed): string {
  if (parsed.common.lot !== undefined) return resolve(parsed.common.lot);
  for (let folder = process.cwd(); ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'lot.sqlite'))) return folder;
    if (folder === dirname(folder)) break;
  }
  throw new LotfileError('wrong use', 'There is no lot in this folder or above it.', {
    next: 'Go to the lot folder, name it with --lot FOLDER, or make one: lotfile new-lot FOLDER --title NAME.',
  });
}

/** Lays the bare words of the line onto the request's fields. */
function withPositionals(name: RequestName, parsed: Parsed): Record<string, unknown> {
  const fields: Record<string, unknown> = { ...parsed.fields };
  const rest = [...parsed.positionals];
  for (const field of positionals[name] ?? []) {
    if (field.startsWith('...')) {
      if (rest.length > 0) fields[field.slice(3)] = rest.splice(0);
    } else if (rest.length > 0) fields[field] = rest.shift();
  }
  if (rest.length > 0) {
    throw new LotfileError('wrong use', `"${rest[0]}" is one word too many.`, {
      next: `Put several words in quotes, or see: lotfile ${name} --help.`,
    });
  }
  return fields;
}

type Fields = Readonly<Record<string, unknown>>;
type Offer = (path: string) => string;

function listOf(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.map(String);
  return value === undefined ? [] : [String(value)];
}

function keepArgument(fields: Fields, offer: Offer): unknown {
  const {
    files,
    together: joined,
    replaces,
    amends,
    extends: extended,
    continues,
    'made-from': madeFrom,
    ...rest
  } = fields;
  const links = Object.entries({ replaces, amends, extends: extended, continues, 'made from': madeFrom }).flatMap(
    ([word, to]) => listOf(to).map((edition) => ({ word, to: edition })),
  );
  const tickets = listOf(files).map((path) => offer(resolve(path)));
  const each = joined === true || tickets.length === 0 ? [tickets] : tickets.map((ticket) => [ticket]);
  return { papers: each.map((one) => ({ ...rest, links, files: one })) };
}

/** Paths become tickets here: behind this line nothing knows a path that a host did not offer. */
function argumentOf(name: RequestName, fields: Fields, offer: Offer): unknown {
  if (name === 'keep') return keepArgument(fields, offer);
  const argument: Record<string, unknown> = { ...fields };
  for (const option of optionsOf(requests[name].in)) {
    const value = fields[option.field];
    if (option.takes === 'file' && typeof value === 'string') argument[option.field] = offer(resolve(value));
  }
  if (name === 'new-lot') {
    argument.layers = listOf(fields.layers).map((path) => ({ name: basename(path), text: readFileSync(path, 'utf8') }));
  }
  return argument;
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
  const lot = folder === undefined ? undefined : (await desk.ask('open-lot', { folder })).lot;
  const answer = await desk.askUntyped(name, argument, { lot, on, signal });
  if (parsed.common.out !== undefined) copyOut(answer, parsed.common.out, (ticket) => desk.tickets.look(ticket).path);
  const text = parsed.common.json ? JSON.stringify({ answer }, null, 2) : printAnswer(name, answer);
  process.stdout.write(text === '' ? '' : `${text}\n`);
  if (name === 'keep' && hasRefused(answer)) return exitCodes.error;
  if (name === 'verify' && hasProblems(answer)) return exitCodes.error;
  return wouldBeRefused(answer) ? exitCodes.wouldBeRefused : exitCodes.done;
}

function listIn(answer: unknown, key: string): readonly unknown[] {
  const value: unknown = typeof answer === 'object' && answer !== null ? Reflect.get(answer, key) : undefined;
  return Array.isArray(value) ? value : [];
}

function hasRefused(answer: unknown): boolean {
  return listIn(answer, 'refused').length > 0;
}

function hasProblems(answer: unknown): boolean {
  return listIn(answer, 'problems').length > 0;
}

function copyOut(answer: unknown, out: string, pathOf: (ticket: string) => string): void {
  mkdirSync(out, { recursive: true });
  for (const file of listIn(answer, 'files')) {
    if (typeof file === 'object' && file !== null && 'ticket' in file && 'name' in file) {
      cpSync(pathOf(String(file.ticket)), join(out, String(file.name)));
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
