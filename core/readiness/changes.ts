import type { FactValue } from '../vocabulary/facts.ts';
import type { Verb } from '../vocabulary/practice.ts';
import { type Known, valueInWords } from './agreements.ts';
import type { Change } from './problem.ts';

/** How one value has to become another: a lower number is gone back to, anything else changed. */
function becoming(from: FactValue, to: FactValue): string {
  const lower = typeof from.value === 'number' && typeof to.value === 'number' && to.value < from.value;
  return `${lower ? 'goes back to' : 'is changed to'} ${valueInWords(to)}`;
}

/** For dates: which side of the other day it has to lie on. */
function dated(verb: Verb, side: 'first' | 'second', to: FactValue): string {
  const day = valueInWords(to);
  if (verb === 'covers_days') return side === 'first' ? `begins by ${day}` : `runs through ${day}`;
  const later = verb === 'at_most' ? side === 'second' : side === 'first';
  return `is dated ${day} or ${later ? 'later' : 'earlier'}`;
}

function changeOf(of: Known, becomes: string): readonly Change[] {
  const { entry } = of;
  if (entry === undefined) return [];
  const { kind, id, subject } = entry.paper;
  return [{ kind, subject, paper: id, edition: entry.edition.id, becomes }];
}

/** The papers of a broken agreement, each with what it would have to become; what is no paper is left out. */
export function changesFor(verb: Verb, [first, second]: readonly [Known, Known]): readonly Change[] {
  const days = first.value.sort === 'day' && second.value.sort === 'day' && verb !== 'same';
  const words = (side: 'first' | 'second'): string => {
    const [from, to] = side === 'first' ? [first.value, second.value] : [second.value, first.value];
    return days ? dated(verb, side, to) : becoming(from, to);
  };
  return [...changeOf(first, words('first')), ...changeOf(second, words('second'))];
}
