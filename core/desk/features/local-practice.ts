import { figures } from '../../figures/index.ts';
import type { WordLayer } from '../../store/index.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import type { Practice } from '../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../context.ts';
import type { AmendableAnswer, WordsAnswer } from '../contract/practice-answers.ts';
import { requests } from '../contract/requests.ts';
import { errandNamed, known } from '../named.ts';
import { commonLayers } from '../templates.ts';
import { errandRows, heldHere, officeRows, paperRows } from './amend-rows.ts';
import { officeTitle } from './asked.ts';
import { errandIn, named, rowFor, thingOf, valueFor, valueInWords, withLayer } from './practice/rule-rows.ts';
import { acted } from './record-card.ts';

/** The office a rule belongs to: the errand's, the paper's issuer, or the office itself. */
function officeOf(practice: Practice, rule: string): string {
  const [room, id = ''] = rule.split('.');
  if (room === 'errands') return errandIn(practice, id)?.office ?? '';
  if (room === 'papers') return practice.papers[id]?.from ?? '';
  return room === 'offices' ? id : '';
}

/** "The clerk said otherwise": one rule amended, on the word of a named person, on a day. */
export const clerkSaid = onLot(requests['clerk-said'], async ({ rule, value: typed, who, day: on, note }, at) => {
  const { officeWord } = await import('../../practice/index.ts');
  const before = at.lot.practice();
  const layers = at.lot.layers();
  const day = on ?? at.day;
  const row = rowFor(before, rule);
  const value = valueFor(row, typed);
  const told = { target: rule, value, who, day, ...(note === undefined ? {} : { note }) };
  const layer = named(officeWord(told, before), layers);
  const { practice, layers: all } = await withLayer(layers, layer, { rule, row, value: typed });
  const office = officeOf(practice, rule);
  if (office === '') {
    throw new LotfileError('wrong use', `"${rule}" belongs to no office.`, {
      next: 'Name a rule of an errand, a paper or an office, for example errands.permit-apply.needs.plans.copies.',
    });
  }
  const now = rowFor(practice, rule);
  // Their own words, else the path, where no row bears it.
  const words =
    now === undefined
      ? (note ?? `${rule}: ${valueInWords(value)}`)
      : `${now.group}, ${now.label}: ${valueInWords(value)}`;
  const change =
    now === undefined ? undefined : { rule: `${now.group}, ${now.label}`, was: row?.say ?? '', now: now.say };
  return acted(at, `${who} said: ${words}`, () => {
    at.lot.addOfficeWord({ office, who, day, said: note ?? words, layer: { ...layer, change, remark: note } });
    at.lot.setPractice({ practice, layers: all });
  });
});

/** A later word may rest on this one: copies of a paper that nobody would ask for any more. */
function restsOnIt(words: ReturnType<AtLot['lot']['officeWords']>, cause: unknown): LotfileError {
  const named = LotfileError.from(cause).about ?? '';
  const later = words.filter(({ layer }) => named.includes(layer.name)).map(({ said }) => `"${said}"`);
  return new LotfileError('wrong use', 'What was said later rests on this word, so it can’t be taken back alone.', {
    about: named,
    next: later.length === 0 ? 'Take back what was said later first.' : `Take back first: ${later.join(', ')}.`,
    cause,
  });
}

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
  let without: Practice;
  try {
    without = readPractice(layers, { figures: Object.keys(figures) });
  } catch (cause) {
    throw restsOnIt(at.lot.officeWords(), cause);
  }
  return acted(at, `Took back what ${found.who} said: ${found.said}`, () => {
    at.lot.removeOfficeWord(found.id);
    at.lot.setPractice({ practice: without, layers });
  });
});

/** Of a word noted before changes were kept beside it: the rule its layer is named after, and what was noted. */
function changeOf(name: string, said: string, practice: Practice): WordsAnswer['words'][number]['change'] {
  const [, rule = '', value] = /^word of \S+, (\S+) is (.*?)(?: \(\d+\))?$/s.exec(name) ?? [];
  const row = rowFor(practice, rule);
  return row === undefined || value === undefined
    ? { rule: thingOf(practice, rule) ?? 'A rule', now: said }
    : { rule: `${row.group}, ${row.label}`, now: value };
}

/** The change and, where they say more than it, their own words; of a word noted by earlier versions all it says. */
export function toldOf(
  { name, change: kept, remark }: WordLayer,
  said: string,
  practice: Practice,
): Pick<WordsAnswer['words'][number], 'change' | 'remark'> {
  const change = kept ?? changeOf(name, said, practice);
  const own = kept === undefined ? said : remark;
  const more = own !== change.now && own !== `${change.rule}: ${change.now}`;
  return { change, remark: more ? own : undefined };
}

/** What offices said otherwise so far, newest first, and the texts the practice was made from. */
export const practiceWords = onLot(requests['practice-words'], (_input, { lot }): WordsAnswer => {
  const practice = lot.practice();
  const words = lot.officeWords();
  const common = new Set(commonLayers().map(({ name }) => name));
  const said = new Set(words.map(({ layer }) => layer.name));
  return {
    words: words.toReversed().map(({ id, office, who, day, said: what, layer, act }) => ({
      ...toldOf(layer, what, practice),
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
