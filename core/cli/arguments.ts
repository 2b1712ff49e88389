import { parseArgs } from 'node:util';
import { LotfileError } from '../desk/door.ts';
import type { Option } from './options.ts';

/** Words every command takes. */
export interface Common {
  readonly json: boolean;
  readonly on: string | undefined;
  readonly lot: string | undefined;
  readonly out: string | undefined;
  readonly help: boolean;
  readonly takeOver: boolean;
}

export interface Parsed {
  readonly common: Common;
  /** Field -> value, as the request wants it; files are still paths. */
  readonly fields: Readonly<Record<string, unknown>>;
  readonly positionals: readonly string[];
}

const commonOptions = {
  json: { type: 'boolean' },
  on: { type: 'string' },
  lot: { type: 'string' },
  out: { type: 'string' },
  help: { type: 'boolean' },
  'take-over': { type: 'boolean' },
} as const;

function wrongUse(message: string, next: string): LotfileError {
  return new LotfileError('wrong use', message, { next });
}

/** @throws LotfileError `wrong use` where it is none. */
export function numberOf(option: Pick<Option, 'word'>, text: string): number {
  const value = Number(text);
  if (text.trim() === '' || !Number.isFinite(value)) {
    throw wrongUse(`--${option.word} takes a number, "${text}" is none.`, `Write --${option.word} 20, for example.`);
  }
  return value;
}

/** `bedrooms=3` pairs into one record. */
function recordOf(option: Option, texts: readonly string[]): Record<string, string> {
  const pairs = texts.map((text): [string, string] => {
    const at = text.indexOf('=');
    if (at < 1) {
      throw wrongUse(`--${option.word} takes name=value, "${text}" has no "=".`, `Write --${option.word} bedrooms=3.`);
    }
    return [text.slice(0, at).trim(), text.slice(at + 1).trim()];
  });
  return Object.fromEntries(pairs);
}

function readValue(option: Option, raw: readonly string[]): unknown {
  const [first = ''] = raw;
  switch (option.takes) {
    case 'flag':
      return true;
    case 'pair':
      return recordOf(option, raw);
    case 'number':
      return option.many ? raw.map((text) => numberOf(option, text)) : numberOf(option, first);
    case 'words':
    case 'day':
    case 'file':
      return option.many ? raw : first;
  }
}

function rawOf(value: unknown): readonly string[] {
  if (Array.isArray(value)) return value.map(String);
  return value === undefined || value === false ? [] : [String(value)];
}

/**
 * Reads a command line by the options of its request.
 * @throws LotfileError `wrong use`, with what to write instead.
 */
export function readArguments(words: readonly string[], options: readonly Option[]): Parsed {
  const known = Object.fromEntries(
    options.map((option) => [
      option.word,
      option.takes === 'flag' ? ({ type: 'boolean' } as const) : ({ type: 'string', multiple: option.many } as const),
    ]),
  );
  try {
    const read = parseArgs({ args: [...words], options: { ...known, ...commonOptions }, allowPositionals: true });
    const values: Record<string, unknown> = { ...read.values };
    const fields = options.flatMap((option): [string, unknown][] => {
      const raw = rawOf(values[option.word]);
      return raw.length === 0 ? [] : [[option.field, readValue(option, raw)]];
    });
    const text = (key: keyof typeof commonOptions): string | undefined =>
      typeof values[key] === 'string' ? values[key] : undefined;
    return {
      common: {
        json: values.json === true,
        help: values.help === true,
        takeOver: values['take-over'] === true,
        on: text('on'),
        lot: text('lot'),
        out: text('out'),
      },
      fields: Object.fromEntries(fields),
      positionals: read.positionals,
    };
  } catch (error) {
    if (error instanceof LotfileError) throw error;
    const reason = error instanceof Error ? error.message.split('. To specify')[0] : String(error);
    throw wrongUse(`${reason}.`.replace('..', '.'), 'Put --help behind the command to see what it takes.');
  }
}
