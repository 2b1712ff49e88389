/**
 * `npm run fuzz:desk -- 100000 [seed]`: asks that many requests of the desk, most with something odd in them, and says
 * how they ended. Ends with 1 where one ended otherwise than in an answer or a sentence, or a lot was left unsound.
 */
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fuzzDesk } from './fuzz-desk.ts';

function given(place: number, otherwise: number): number {
  const value = Number(process.argv[place]);
  return Number.isInteger(value) && value > 0 ? value : otherwise;
}

const count = given(2, 10_000);
const seed = given(3, 1);
const started = performance.now();
const folder = join(tmpdir(), `lotfile-fuzz-desk-${process.pid}`);
const onRequest = (done: number): void => {
  if (done % 2500 === 0) process.stdout.write(`${done} of ${count}\n`);
};
const { answered, refused, found, longest } = await fuzzDesk({ folder, count, seed, onRequest });
const sum = (counts: Readonly<Record<string, number>>): number =>
  Object.values(counts).reduce((all, one) => all + one, 0);
process.stdout.write(`${sum(answered)} answered, ${sum(refused)} refused with a sentence (seed ${seed}):\n`);
for (const [code, times] of Object.entries(refused)) process.stdout.write(`${String(times).padStart(8)} ${code}\n`);
const never = Object.entries(answered).toSorted(([, a], [, b]) => a - b);
process.stdout.write(
  `seldom answered: ${never
    .slice(0, 8)
    .map(([name, times]) => `${name} ${times}`)
    .join(', ')}\n`,
);
process.stdout.write(`longest: ${longest.milliseconds} ms, ${longest.request}\n`);
process.stdout.write(`${count} requests in ${Math.round((performance.now() - started) / 1000)} s\n`);
for (const say of found) process.stdout.write(`FOUND ${say}\n`);
process.stdout.write(found.length === 0 ? 'Nothing found.\n' : `${found.length} found.\n`);
process.exitCode = found.length === 0 ? 0 : 1;
