import { figures } from '../../figures/index.ts';
import type { PracticeLayer } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Errand, Practice } from '../../vocabulary/practice.ts';
import { onLot } from '../context.ts';
import type { AmendableAnswer, WordsAnswer } from '../contract/practice-answers.ts';
import { requests } from '../contract/requests.ts';
import { errandNamed, known } from '../named.ts';
import { commonLayers } from '../templates.ts';
import { errandRows, heldHere, officeRows, paperRows } from './amend-rows.ts';
import { officeTitle } from './asked.ts';
import { acted } from './record-card.ts';

/** An errand of the practice, or one that is written down and not wanted here. */
function errandIn({ errands, offered = {} }: Practice, id: string): Errand | undefined {
  if (Object.hasOwn(errands, id)) return errands[id];
  return Object.hasOwn(offered, id) ? offered[id] : undefined;
}

/** The office a rule belongs to: the errand's, the paper's issuer, or the office itself. */
function officeOf(practice: Practice, rule: string): string {
  const [room, id = ''] = rule.split('.');
  if (room === 'errands') return errandIn(practice, id)?.office ?? '';
  if (room === 'papers') return practice.papers[id]?.from ?? '';
  return room === 'offices' ? id : '';
}

/** Two people may say the same on one day; each word keeps a name of its own. */
function named(layer: PracticeLayer, layers: readonly PracticeLayer[]): PracticeLayer {
  const taken = new Set(layers.map(({ name }) => name));
  let name = layer.name;
  for (let n = 2; taken.has(name); n += 1) name = `${layer.name} (${n})`;
  return { ...layer, name };
}

/** "House plans, copies: 3": a rule and its new value as a person would tell it; their own words, else the path, where no row bears it. */
function ruleInWords(
  practice: Practice,
  { rule, value, note }: { readonly rule: string; readonly value: unknown; readonly note?: string | undefined },
): string {
  const [room, id = ''] = rule.split('.');
  const errand = room === 'errands' ? errandIn(practice, id) : undefined;
  const paper = room === 'papers' ? practice.papers[id] : undefined;
  const office = room === 'offices' ? practice.offices[id] : undefined;
  const rows = [
    ...(errand === undefined ? [] : [...errandRows(errand, practice), heldHere(errand, true)]),
    ...(paper === undefined ? [] : paperRows(paper, practice)),
    ...(office === undefined ? [] : officeRows(office)),
  ];
  const row = rows.find((each) => each.rule === rule);
  const said = Array.isArray(value)
    ? value.join(', ')
    : typeof value === 'boolean'
      ? value
        ? 'yes'
        : 'no'
      : String(value);
  return row === undefined ? (note ?? `${rule}: ${said}`) : `${row.group}, ${row.label}: ${said}`;
}

/** "The clerk said otherwise": one rule amended, on the word of a named person, on a day. */
export const clerkSaid = onLot(requests['clerk-said'], async ({ rule, value, who, day, note }, at) => {
  const { officeWord, readPractice } = await import('../../practice/index.ts');
  const layers = at.lot.layers();
  const said = day ?? at.day;
  const layer = officeWord(
    { target: rule, value, who, day: said, ...(note === undefined ? {} : { note }) },
    at.lot.practice(),
  );
  const all = [...layers, named(layer, layers)];
  const practice = readPractice(all, { figures: Object.keys(figures) });
  const office = officeOf(practice, rule);
  if (office === '') {
    throw new LotfileError('wrong use', `"${rule}" belongs to no office.`, {
      next: 'Name a rule of an errand, a paper or an office, for example errands.permit-apply.needs.plans.copies.',
    });
  }
  const told = ruleInWords(practice, { rule, value, note });
  return acted(at, `${who} said: ${told}`, () => {
    const words = note ?? told;
    at.lot.addOfficeWord({ office, who, day: said, said: words, layer: named(layer, layers) });
    at.lot.setPractice({ practice, layers: all });
  });
});

/** One word taken back: the practice is read anew without it, whatever was said later stays. */
export const unsay = onLot(requests.unsay, async ({ word }, at) => {
  const found = at.lot.officeWords().find(({ id }) => String(id) === word);
  if (found === undefined) {
    throw new LotfileError('not found', `No office's word is called "${word}".`, {
      about: word,
      next: 'See them: practice-words.',
    });
  }
  const { readPractice } = await import('../../practice/index.ts');
  // One alone: lots kept earlier may hold two equal words under one name.
  const all = at.lot.layers();
  const its = all.findLastIndex(({ name, text }) => name === found.layer.name && text === found.layer.text);
  const layers = all.filter((_, n) => n !== its);
  const without = readPractice(layers, { figures: Object.keys(figures) });
  return acted(at, `Took back what ${found.who} said: ${found.said}`, () => {
    at.lot.removeOfficeWord(found.id);
    at.lot.setPractice({ practice: without, layers });
  });
});

/** What offices said otherwise so far, newest first, and the texts the practice was made from. */
export const practiceWords = onLot(requests['practice-words'], (_input, { lot }): WordsAnswer => {
  const practice = lot.practice();
  const words = lot.officeWords();
  const common = new Set(commonLayers().map(({ name }) => name));
  const said = new Set(words.map(({ layer }) => layer.name));
  return {
    words: words.toReversed().map(({ id, office, who, day, said: what, layer, act }) => ({
      word: String(id),
      office,
      officeTitle: officeTitle(practice, office),
      who,
      day,
      said: what,
      layer: layer.name,
      act: act === undefined ? undefined : String(act),
    })),
    layers: lot
      .layers()
      .map(({ name }) => ({ name, sort: said.has(name) ? 'word' : common.has(name) ? 'common' : 'local' })),
  };
});

/** The rules of one errand, kind of paper or office that an office's word can change. */
export const amendable = onLot(requests.amendable, ({ errand, paper, office }, { lot }): AmendableAnswer => {
  const practice = lot.practice();
  if (errand !== undefined) {
    const rule = errandIn(practice, errand) ?? errandNamed(practice, errand);
    const here = heldHere(rule, Object.hasOwn(practice.errands, rule.id));
    return { title: rule.title, rows: [...errandRows(rule, practice), here] };
  }
  if (paper !== undefined) {
    const rule = known(practice.papers, paper, 'kind of paper');
    return { title: rule.title, rows: paperRows(rule, practice) };
  }
  if (office !== undefined) {
    const rule = known(practice.offices, office, 'office');
    return { title: rule.title, rows: officeRows(rule) };
  }
  throw new LotfileError('wrong use', 'Neither an errand nor a paper nor an office was named.', {
    next: 'Name one of them, for example errand permit-apply.',
  });
});

export const practice = onLot(requests.practice, (_input, { lot }) => ({
  practice: lot.practice(),
  layers: lot.layers().map(({ name }) => name),
}));
