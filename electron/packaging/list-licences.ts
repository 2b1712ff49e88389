/** `npm run licences`: everything that travels with the program, with its terms. Ends with 1 where some don't fit. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { howItMayTravel, licencesIn } from './licences.ts';

const lock: unknown = JSON.parse(readFileSync(join(import.meta.dirname, '..', '..', 'package-lock.json'), 'utf8'));
const rows = licencesIn(lock);
for (const row of rows) {
  const { name, version, licence } = row;
  process.stdout.write(
    `${`${name} ${version}`.padEnd(52)} ${licence.padEnd(40)} ${howItMayTravel(row) ?? 'DOES NOT FIT'}\n`,
  );
}
const unfit = rows.filter((row) => howItMayTravel(row) === undefined);
process.stdout.write(`\n${rows.length} packages, ${unfit.length} that don't fit.\n`);
process.exitCode = unfit.length === 0 ? 0 : 1;
