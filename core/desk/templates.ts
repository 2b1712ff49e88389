import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
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
