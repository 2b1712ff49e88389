import { readFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { LotfileError, paperToKeep, type RequestName, requests } from '../desk/door.ts';
import { numberOf, type Parsed } from './arguments.ts';
import { type Option, optionsOf } from './options.ts';
import { positionals } from './positionals.ts';

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

/** All options of a request: those of its schema, and the few the terminal words differently. */
export function optionsFor(name: RequestName): readonly Option[] {
  if (name === 'keep') return [...optionsOf(paperToKeep), ...linkOptions, together];
  if (name === 'correct') return [...optionsOf(requests[name].in), ...linkOptions];
  return name === 'new-lot' ? [...optionsOf(requests[name].in), layerOption] : optionsOf(requests[name].in);
}

/** Lays the bare words of the line onto the request's fields. */
export function withPositionals(name: RequestName, parsed: Parsed): Record<string, unknown> {
  const fields: Record<string, unknown> = { ...parsed.fields };
  const rest = [...parsed.positionals];
  for (const field of positionals[name] ?? []) {
    if (field.startsWith('...')) {
      if (rest.length > 0) fields[field.slice(3)] = rest.splice(0);
      continue;
    }
    const word = rest.shift();
    const option = word === undefined ? undefined : optionsFor(name).find((each) => each.field === field);
    if (word !== undefined) fields[field] = option?.takes === 'number' ? numberOf(option, word) : word;
  }
  if (rest.length > 0) {
    throw new LotfileError('wrong use', `"${rest[0]}" is one word too many.`, {
      next: `Put several words in quotes, or see: lotfile ${name} --help.`,
    });
  }
  return fields;
}

/** Where the person stands: npm starts us in the project's folder and tells theirs. */
export function here(): string {
  const started = process.env.npm_lifecycle_event === 'lotfile' ? process.env.INIT_CWD : undefined;
  return started ?? process.cwd();
}

type Fields = Readonly<Record<string, unknown>>;
type Offer = (path: string) => string;

function listOf(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.map(String);
  return value === undefined ? [] : [String(value)];
}

function linksOf(said: Fields): readonly { readonly word: string; readonly to: string }[] {
  return Object.entries(said).flatMap(([word, to]) => listOf(to).map((edition) => ({ word, to: edition })));
}

function correctArgument(fields: Fields): unknown {
  const { replaces, amends, extends: extended, continues, 'made-from': madeFrom, ...rest } = fields;
  return { ...rest, links: linksOf({ replaces, amends, extends: extended, continues, 'made from': madeFrom }) };
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
  const links = linksOf({ replaces, amends, extends: extended, continues, 'made from': madeFrom });
  const tickets = listOf(files).map((path) => offer(resolve(here(), path)));
  const each = joined === true || tickets.length === 0 ? [tickets] : tickets.map((ticket) => [ticket]);
  return { papers: each.map((one) => ({ ...rest, links, files: one })) };
}

function readLayer(path: string): { readonly name: string; readonly text: string } {
  try {
    return { name: basename(path), text: readFileSync(resolve(here(), path), 'utf8') };
  } catch (cause) {
    throw new LotfileError('wrong use', `The amendments "${path}" can't be read.`, {
      about: path,
      next: 'Name the YAML file as it stands on the disk.',
      cause,
    });
  }
}

/** Paths become tickets here: behind this line nothing knows a path that a host did not offer. */
export function argumentOf(name: RequestName, fields: Fields, offer: Offer): unknown {
  if (name === 'keep') return keepArgument(fields, offer);
  if (name === 'correct') return correctArgument(fields);
  const argument: Record<string, unknown> = { ...fields };
  for (const option of optionsOf(requests[name].in)) {
    const value = fields[option.field];
    if (option.takes !== 'file' || value === undefined) continue;
    const tickets = listOf(value).map((path) => offer(resolve(here(), path)));
    argument[option.field] = option.many ? tickets : tickets[0];
  }
  if (name === 'new-lot') {
    argument.layers = listOf(fields.layers).map(readLayer);
    if (fields.folder === '')
      throw new LotfileError('wrong use', 'The folder has no name.', { next: 'Write: new-lot FOLDER --title NAME.' });
  }
  return argument;
}
