import { readFileSync } from 'node:fs';
import { basename, resolve } from 'node:path';
import { LotfileError, paperToKeep, type RequestName, requests } from '../desk/door.ts';
import type { Parsed } from './arguments.ts';
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
  return name === 'new-lot' ? [...optionsOf(requests[name].in), layerOption] : optionsOf(requests[name].in);
}

/** Lays the bare words of the line onto the request's fields. */
export function withPositionals(name: RequestName, parsed: Parsed): Record<string, unknown> {
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
export function argumentOf(name: RequestName, fields: Fields, offer: Offer): unknown {
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
