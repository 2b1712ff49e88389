import { neverByUs, wordsIn } from '../vocabulary/by-hand.ts';
import type { BlankField, BlankForm } from './form-model.ts';

function saysHand({ name, hint = '' }: BlankField): string | undefined {
  return neverByUs(name) ?? neverByUs(hint);
}

/** A box for a day, or a part of one, by its name or hint. */
const aDay = /\bdate|dated?\b|\b(?:day|month|year)\b/;

function isDay({ name, hint = '', sort }: BlankField): boolean {
  return (sort === 'text' || sort === 'choice') && (aDay.test(wordsIn(name)) || aDay.test(wordsIn(hint)));
}

/** The two stand side by side on one line of one page. */
function beside(one: BlankField, other: BlankField): boolean {
  return one.places.some((a) =>
    other.places.some(
      (b) => a.page === b.page && a.rect.y < b.rect.y + b.rect.height && b.rect.y < a.rect.y + a.rect.height,
    ),
  );
}

/**
 * Why a box is for a person's own hand: a signature field, a name or hint that says so, or a day beside one of those.
 * @returns undefined for every other box
 */
export function handOf(field: BlankField, { fields }: BlankForm): string | undefined {
  if (field.sort === 'signature') return 'A signature';
  const said = saysHand(field);
  if (said !== undefined) return `It looks like ${said}`;
  if (!isDay(field)) return undefined;
  const hand = fields.find(
    (one) => one !== field && (one.sort === 'signature' || saysHand(one) !== undefined) && beside(field, one),
  );
  return hand === undefined ? undefined : 'A day beside a signature';
}
