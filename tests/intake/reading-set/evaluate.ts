/**
 * Measures reading on the generated set: `evaluate.ts [--seed 0] [--half a|b] [--text] [--small] [--wrong] [--remember]`.
 * Half A was looked at while the rules were written; half B has other wordings and is only measured. Each seed is
 * another two hundred documents; a figure counts only from seeds nobody looked at before.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sharedReader } from '../../../core/intake/ocr/letter-reader.ts';
import { readingRecipe } from '../../../core/intake/ocr/read-model.ts';
import { readPaper } from '../../../core/intake/reading/read-paper.ts';
import { readPractice } from '../../../core/practice/index.ts';
import { commonLayers } from '../../practice/common-layers.ts';
import { composeDocument, setSize, smallSet } from './compose.ts';
import { judge, type Outcome, tableOf } from './measure.ts';
import { rememberedPages, textOfDocument } from './read-set.ts';

const options = process.argv.slice(2);
const has = (name: string) => options.includes(name);
const half = options[options.indexOf('--half') + 1];
const seed = has('--seed') ? Number(options[options.indexOf('--seed') + 1]) : 0;
if (!Number.isInteger(seed) || seed < 0) throw new Error('--seed takes a whole number from 0 on');
const scanned = !has('--text');
const folder = fileURLToPath(new URL('../../../node_modules/.cache/lotfile-reading/', import.meta.url));
mkdirSync(folder, { recursive: true });

const chosen = (has('--small') ? [...smallSet] : Array.from({ length: setSize }, (_, index) => index))
  .map((index) => seed * setSize + index)
  .filter((index) => !has('--half') || composeDocument(index).half === half);
const practice = readPractice(commonLayers);
const outcomes: Outcome[] = [];
const halves = new Map<number, string>();
const started = performance.now();
for (const index of chosen) {
  const path = join(folder, `${readingRecipe}-${scanned ? 'scan' : 'text'}-${index}.json`);
  const known = has('--remember') ? rememberedPages(path) : undefined;
  const document = composeDocument(index);
  const pages = known ?? (await textOfDocument(index, { folder, reader: sharedReader, scanned })).pages;
  if (known === undefined && has('--remember')) writeFileSync(path, JSON.stringify(pages));
  halves.set(index, document.half);
  outcomes.push(...judge(document, readPaper(pages, practice, { today: '2026-07-15' }), practice));
}
if (scanned) await (await sharedReader()).close();

for (const name of ['a', 'b']) {
  const own = outcomes.filter((outcome) => halves.get(outcome.index) === name);
  if (own.length > 0)
    process.stdout.write(
      `\nHalf ${name.toUpperCase()} (${new Set(own.map(({ index }) => index)).size} documents)\n${tableOf(own)}\n`,
    );
}
process.stdout.write(`\nAll ${chosen.length} documents, ${scanned ? 'scanned' : 'text layer'}\n${tableOf(outcomes)}\n`);
process.stdout.write(`${((performance.now() - started) / 1000).toFixed(1)} s\n`);
if (has('--wrong')) {
  for (const { index, what, wanted, got, right, sureness } of outcomes) {
    if (!right)
      process.stdout.write(
        `${index} ${what}: wanted ${wanted}, got ${got ?? 'nothing'}${sureness === undefined ? '' : ` (${sureness})`}\n`,
      );
  }
}
