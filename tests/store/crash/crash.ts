import { killMany } from './kills.ts';

/** `npm run crash -- 5000`: kills so many programs in the middle of their work and looks at what each left. */
const kills = Number(process.argv[2] ?? 200);
if (!Number.isInteger(kills) || kills < 1) {
  process.stderr.write('Say how many: npm run crash -- 5000\n');
  process.exit(2);
}
const begun = Date.now();
let said = 0;
const { wrong, during, told } = await killMany(kills, (n, found) => {
  for (; said < found.length; said += 1) process.stdout.write(`${found[said]}\n`);
  if (n % 100 === 0)
    process.stdout.write(`${n} kills, ${found.length} troubles, ${Math.round((Date.now() - begun) / 1000)} s\n`);
});
const where = Object.entries(during)
  .toSorted(([, a], [, b]) => b - a)
  .map(([name, count]) => `${name} ${count}`);
process.stdout.write(`${kills} kills (${where.join(', ')}); ${told} deeds told as done; ${wrong.length} troubles\n`);
process.exit(wrong.length === 0 ? 0 : 1);
