import { type RequestName, requests } from '../desk/door.ts';
import type { Option } from './options.ts';
import { positionals } from './positionals.ts';

/** Requests that only windows need: the terminal opens and closes the lot itself. */
const unspoken: readonly string[] = ['open-lot', 'close-lot'];

function isSpoken(entry: [string, { help: string }]): boolean {
  return !unspoken.includes(entry[0]);
}

/** What `lotfile` alone prints. */
export function generalHelp(): string {
  const rows = Object.entries(requests)
    .filter(isSpoken)
    .map(([name, spec]) => `  ${name.padEnd(15)} ${spec.help}`);
  return [
    'lotfile: the papers of an owner-built house, and the packets each office asks for.',
    '',
    'Write: lotfile WHAT [words] [--lot FOLDER] [--on DAY] [--json]',
    '',
    ...rows,
    '',
    'Common to all:',
    '  --lot FOLDER    the lot folder; else the folder you are in, or the nearest above it',
    '  --on DAY        as it will stand on that day (2026-03-02)',
    '  --json          the answer as data',
    '  --take-over     the computer that had the lot open is gone',
    '  --out FOLDER    also put the files made there: assemble, packet-files, errand-sheet, mail-draft',
    '  --help          what a command takes',
    '',
    'It ends with 0 done, 1 error, 2 wrong use, 3 done but something would be refused, 4 stopped.',
    'Your county and licensed people decide; Lotfile only shows what is in your papers.',
  ].join('\n');
}

function optionRow(option: Option): string {
  const takes = { flag: '', words: ' WORDS', number: ' N', day: ' DAY', file: ' FILE', pair: ' NAME=VALUE' }[
    option.takes
  ];
  const notes = [
    option.choices.length > 0 ? option.choices.join(' | ') : '',
    option.many ? 'may stand several times' : '',
    option.required ? 'needed' : '',
  ].filter((note) => note !== '');
  return `  ${`--${option.word}${takes}`.padEnd(26)} ${notes.join('; ')}`.trimEnd();
}

/** What `lotfile WHAT --help` prints. */
export function commandHelp(name: RequestName, options: readonly Option[]): string {
  const bare = (positionals[name] ?? []).map((field) =>
    field.startsWith('...')
      ? 'FILE ...'
      : field.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`).toUpperCase(),
  );
  return [`lotfile ${[name, ...bare].join(' ')}`, requests[name].help, '', ...options.map(optionRow)].join('\n');
}
