/**
 * Measures where one scan is suggested to be several papers: `evaluate-cuts.ts [--seed 0] [--count 100] [--scan] [--wrong]`.
 * Half of the bundles hold three to ten papers, half are one paper of many pages. `--scan` reads pictures of the pages,
 * with words of the set remembered by `npm run reading -- --remember`.
 */
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sharedReader } from '../../../core/intake/ocr/letter-reader.ts';
import { readingRecipe } from '../../../core/intake/ocr/read-model.ts';
import { readPractice } from '../../../core/practice/index.ts';
import { commonLayers } from '../../practice/common-layers.ts';
import { composeBundle, composeWhole } from './bundles.ts';
import { type CutsAt, type CutsJudged, judgeCuts } from './judge-cuts.ts';
import { rememberedPages } from './read-set.ts';

const options = process.argv.slice(2);
const given = (name: string, otherwise: number): number =>
  options.includes(name) ? Number(options[options.indexOf(name) + 1]) : otherwise;
const seed = given('--seed', 0);
const count = given('--count', 100);
const scan = options.includes('--scan');
const folder = fileURLToPath(new URL('../../../node_modules/.cache/lotfile-reading/', import.meta.url));
const at: CutsAt = {
  folder,
  practice: readPractice(commonLayers),
  reader: scan ? sharedReader : undefined,
  remembered: scan ? (index) => rememberedPages(join(folder, `${readingRecipe}-scan-${index}.json`)) : undefined,
};

const say = (line: string): boolean => process.stdout.write(`${line}\n`);

async function measure(what: string, compose: typeof composeBundle): Promise<void> {
  const judged: CutsJudged[] = [];
  for (let number = 0; number < count; number += 1) {
    const bundle = compose(seed, number);
    const one = await judgeCuts(bundle, at);
    judged.push(one);
    if (one.right || !options.includes('--wrong')) continue;
    say(`${what} ${number}: missed ${one.missed.map((page) => page + 1).join(', ') || 'none'}`);
    for (const page of one.ends) say(`  ends elsewhere: page ${page + 1}`);
    for (const page of one.astray) say(`  in no part, or in several: page ${page + 1}`);
    for (const { page, because } of one.tooMany) say(`  too many: page ${page + 1}. ${because}`);
  }
  const sum = (of: (one: CutsJudged) => number): number => judged.reduce((total, one) => total + of(one), 0);
  const right = judged.filter((one) => one.right).length;
  say(
    `${what}: ${right} of ${count} right; ${sum(({ missed }) => missed.length)} cuts missed, ${sum(({ tooMany }) => tooMany.length)} too many, ${sum(({ ends }) => ends.length)} end elsewhere, ${sum(({ astray }) => astray.length)} pages astray, of ${sum(({ papers }) => papers)} papers; ${sum(({ named }) => named)} named by their kind`,
  );
}

await measure('bundles', composeBundle);
await measure('single papers', composeWhole);
if (scan) await (await sharedReader()).close();
