import { type Day, isDay, type Lead, parseLead, parseSpan, type Span } from '../vocabulary/days.ts';
import { type Cents, parseMoney } from '../vocabulary/money.ts';
import { didYouMean, type Problems } from './problems.ts';
import type { ListTree, ScalarTree, Tree } from './yaml-tree.ts';

/** Readers of single values. Each says what is wrong in a sentence and gives undefined. `what` names the value. */

function scalar(tree: Tree, what: string, problems: Problems): ScalarTree | undefined {
  if (tree.of === 'scalar' && tree.value !== null) return tree;
  const found = tree.of === 'scalar' ? 'nothing' : `a ${tree.of}`;
  problems.add(tree.at, `${what} is one value, but here stands ${found}.`);
  return undefined;
}

export function textOf(tree: Tree, what: string, problems: Problems): string | undefined {
  return scalar(tree, what, problems)?.text.trim();
}

export function yesOrNo(tree: Tree, what: string, problems: Problems): boolean | undefined {
  const found = scalar(tree, what, problems);
  if (found === undefined) return undefined;
  if (found.text === 'yes' || found.value === true) return true;
  if (found.text === 'no' || found.value === false) return false;
  problems.add(found.at, `${what} is yes or no, not "${found.text}".`);
  return undefined;
}

export function wholeNumber(tree: Tree, what: string, problems: Problems): number | undefined {
  const found = scalar(tree, what, problems);
  if (found === undefined) return undefined;
  if (typeof found.value === 'number' && Number.isSafeInteger(found.value) && found.value > 0) return found.value;
  problems.add(found.at, `${what} is a whole number from 1 up, not "${found.text}".`);
  return undefined;
}

export function oneOf<T extends string>(
  tree: Tree,
  ask: { readonly what: string; readonly words: readonly T[] },
  problems: Problems,
): T | undefined {
  const found = scalar(tree, ask.what, problems);
  if (found === undefined) return undefined;
  const word = ask.words.find((one) => one === found.text);
  if (word === undefined) {
    const sentence = `${ask.what} is one of ${ask.words.join(', ')}, not "${found.text}"`;
    problems.add(found.at, `${sentence}${didYouMean(found.text, ask.words)}`);
  }
  return word;
}

export function spanOf(tree: Tree, what: string, problems: Problems): Span | undefined {
  const found = scalar(tree, what, problems);
  if (found === undefined) return undefined;
  const span = parseSpan(found.text);
  if (span === undefined) {
    problems.add(found.at, `${what}: "${found.text}" is no length of time; write it as "18 months" or "90 days".`);
  }
  return span;
}

export function leadOf(tree: Tree, what: string, problems: Problems): Lead | undefined {
  const found = scalar(tree, what, problems);
  if (found === undefined) return undefined;
  const lead = parseLead(found.text);
  if (lead === undefined) {
    const how = 'write it as "10 to 20 working days", "3 weeks" or "same day"';
    problems.add(found.at, `${what}: "${found.text}" is no time an office takes; ${how}.`);
  }
  return lead;
}

export function moneyOf(tree: Tree, what: string, problems: Problems): Cents | undefined {
  const found = scalar(tree, what, problems);
  if (found === undefined) return undefined;
  const cents = parseMoney(found.text);
  if (cents === undefined) {
    problems.add(found.at, `${what}: "${found.text}" is no amount; write it as "240 usd" or "free".`);
  }
  return cents;
}

export function dayOf(tree: Tree, what: string, problems: Problems): Day | undefined {
  const found = scalar(tree, what, problems);
  if (found === undefined) return undefined;
  if (isDay(found.text)) return found.text;
  problems.add(found.at, `${what}: "${found.text}" is no date; write it as 2026-03-02.`);
  return undefined;
}

/** A list, or a single value standing for a list of one. */
export function itemsOf(tree: Tree, what: string, problems: Problems): readonly ScalarTree[] {
  const list: ListTree | ScalarTree | undefined = tree.of === 'map' ? undefined : tree;
  if (list === undefined) {
    problems.add(tree.at, `${what} is a list like [one, another], but here stands a map.`);
    return [];
  }
  const items = list.of === 'list' ? list.items : [list];
  return items.flatMap((item) => scalar(item, `Each of ${what}`, problems) ?? []);
}

/** "25 MB", "500 KB": a megabyte is taken as 1,000,000 bytes, the smaller reading, so that a file always fits. */
export function bytesOf(tree: Tree, what: string, problems: Problems): number | undefined {
  const found = scalar(tree, what, problems);
  if (found === undefined) return undefined;
  const match = /^(\d+(?:\.\d+)?) ?(KB|MB|GB)$/.exec(found.text);
  const unit = { KB: 1e3, MB: 1e6, GB: 1e9 }[match?.[2] ?? ''];
  if (match !== null && unit !== undefined) return Math.floor(Number(match[1]) * unit);
  problems.add(found.at, `${what}: "${found.text}" is no file size; write it as "25 MB".`);
  return undefined;
}

/** "15:30", "08:00". */
export function isTimeOfDay(text: string): boolean {
  return /^([01]\d|2[0-3]):[0-5]\d$/.test(text);
}
