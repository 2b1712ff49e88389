import { readFile, rm, writeFile } from 'node:fs/promises';
import { figures } from '../../../figures/index.ts';
import { asciiName } from '../../../packet/plan/names.ts';
import type { PracticeLayer } from '../../../store/index.ts';
import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { Practice } from '../../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../../context.ts';
import type { EffectAnswer } from '../../contract/practice-answers.ts';
import { requests } from '../../contract/requests.ts';
import { commonLayers } from '../../templates.ts';
import { askedOf } from '../asked.ts';
import { offerMade } from '../made-files.ts';
import { acted } from '../record-card.ts';
import { effectOf } from './effect.ts';
import { named, type RuleValue, rowFor, valueFor, withLayer } from './rule-rows.ts';

/** More than this nobody reads; the first ones tell what it is about. */
const mostRows = 60;
/** No practice file is longer by far. */
const mostBytes = 2_000_000;

async function layersIn(ticket: string, at: AtLot): Promise<readonly PracticeLayer[]> {
  const { path, name } = at.tickets.look(ticket);
  const bytes = await readFile(path);
  const text = bytes.length > mostBytes ? undefined : bytes.toString('utf8');
  if (text === undefined || text.includes('\u0000')) {
    throw new LotfileError('file refused', `"${name}" is no file of amendments.`, {
      about: name,
      next: 'Choose the file your neighbour saved under Local practice; it ends in .yaml.',
    });
  }
  const { readLayerFile } = await import('../../../practice/index.ts');
  return readLayerFile({ name: name.replace(/\.ya?ml$/i, ''), text });
}

/** Each layer's name once: the same file laid over twice, or two words of one day, stay apart. */
function apart(layers: readonly PracticeLayer[], more: readonly PracticeLayer[]): readonly PracticeLayer[] {
  const names = new Set(layers.map(({ name }) => name));
  return more.map((layer) => {
    let name = layer.name;
    for (let n = 2; names.has(name); n += 1) name = `${layer.name} (${n})`;
    names.add(name);
    return { ...layer, name };
  });
}

interface Laid {
  readonly practice: Practice;
  readonly layers: readonly PracticeLayer[];
  readonly titles: readonly string[];
}

async function laid(more: readonly PracticeLayer[], at: AtLot): Promise<Laid> {
  const { readPractice } = await import('../../../practice/index.ts');
  const before = at.lot.layers();
  const named = apart(before, more);
  const layers = [...before, ...named];
  return {
    practice: readPractice(layers, { figures: Object.keys(figures) }),
    layers,
    titles: named.map(({ name }) => name),
  };
}

async function without(word: string, at: AtLot): Promise<Laid> {
  const found = at.lot.officeWords().find(({ id }) => String(id) === word);
  if (found === undefined) {
    throw new LotfileError('not found', `No office's word is called "${word}".`, {
      about: word,
      next: 'See them: practice-words.',
    });
  }
  const { readPractice } = await import('../../../practice/index.ts');
  const layers = at.lot.layers().filter(({ name, text }) => name !== found.layer.name || text !== found.layer.text);
  return { practice: readPractice(layers, { figures: Object.keys(figures) }), layers, titles: [] };
}

/** Who says so makes no difference to what follows from it, except that a told rule may turn away. */
async function triedValue(rule: string, typed: RuleValue, at: AtLot): Promise<Laid> {
  const { officeWord } = await import('../../../practice/index.ts');
  const row = rowFor(at.lot.practice(), rule);
  const told = { target: rule, value: valueFor(row, typed), who: 'the office', day: at.day };
  const layers = at.lot.layers();
  const layer = named(officeWord(told, at.lot.practice()), layers);
  return { ...(await withLayer(layers, layer, { rule, row, value: typed })), titles: [layer.name] };
}

/** What a change would do to this lot; nothing is noted. */
export const practiceEffect = onLot(requests['practice-effect'], async (said, at): Promise<EffectAnswer> => {
  const { rule, value, word, file } = said;
  const tried =
    rule !== undefined && value !== undefined
      ? await triedValue(rule, value, at)
      : word !== undefined
        ? await without(word, at)
        : file !== undefined
          ? await laid(await layersIn(file, at), at)
          : undefined;
  if (tried === undefined) {
    throw new LotfileError('wrong use', 'No change was named.', {
      next: 'Name a rule and its value, a word to take back, or a file of amendments.',
    });
  }
  const before = askedOf(at);
  const rows = effectOf({ before, after: { ...before, practice: tried.practice } });
  return { rows: rows.slice(0, mostRows), more: Math.max(0, rows.length - mostRows), layers: tried.titles };
});

/** A file of amendments laid over the rules of this lot, in one act. */
export const layOverFile = onLot(requests['lay-over'], async ({ file }, at) => {
  const { practice, layers, titles } = await laid(await layersIn(file, at), at);
  const { act } = acted(at, `Laid over: ${titles.join(', ')}`, () => at.lot.setPractice({ practice, layers }));
  return { act, layers: titles };
});

/** Local layers and what offices told, as one file; common practice everybody has. */
export const exportPractice = onLot(requests['export-practice'], async (_input, at) => {
  const common = new Set(commonLayers().map(({ name }) => name));
  const layers = at.lot.layers().filter(({ name }) => !common.has(name));
  if (layers.length === 0) {
    throw new LotfileError('not found', 'This lot has no amendments of its own to hand on.', {
      next: 'Note what an office told you first; common practice comes with Lotfile.',
    });
  }
  const { writeLayerFile } = await import('../../../practice/index.ts');
  const head = [
    `Amendments to common practice, written on ${dayInWords(at.day)}. No paper and nothing of the lot is in here;`,
    'the names of those who said so are, for a rule stands on their word. Ask whether it is still so where you build.',
  ];
  const path = at.lot.temporaryPath();
  try {
    await writeFile(path, writeLayerFile(layers, head), { flag: 'wx' });
    const name = `${asciiName(`${at.lot.practice().title} amendments ${at.day}`).toLowerCase() || 'amendments'}.yaml`;
    return { ...(await offerMade({ path, name, key: 'export-practice' }, at)), layers: layers.length };
  } finally {
    await rm(path, { force: true });
  }
});
