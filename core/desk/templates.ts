import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'yaml';
import * as z from 'zod';
import { LotfileError } from '../vocabulary/errors.ts';

export interface LayerText {
  readonly name: string;
  readonly text: string;
}

const commonFolder = join(import.meta.dirname, '..', '..', 'templates', 'practice', 'common');

/** The texts of common practice, in the order of their file names: that order is the order of packets. */
export function commonLayers(): readonly LayerText[] {
  const names = readdirSync(commonFolder)
    .filter((name) => name.endsWith('.yaml'))
    .sort();
  if (names.length === 0) {
    throw new LotfileError('internal', 'The program’s own practice files are missing.', { next: 'Install it again.' });
  }
  return names.map((name) => ({ name, text: readFileSync(join(commonFolder, name), 'utf8') }));
}

const wordsFile = join(import.meta.dirname, '..', '..', 'templates', 'forms', 'words.yaml');
const wordsShape = z.record(z.string(), z.array(z.string()));
let words: z.infer<typeof wordsShape> | undefined;

/** What the words on a form's box most likely ask for; read once. */
export function boxWords(): Readonly<Record<string, readonly string[]>> {
  words ??= wordsShape.parse(parse(readFileSync(wordsFile, 'utf8')));
  return words;
}
