import type { Standpoint } from '../readiness/standpoint.ts';
import type { FilledWith } from '../vocabulary/forms.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import { boxText, namedBoxes } from './box-text.ts';
import { boxTitle } from './box-title.ts';

/** A box whose value is another by now. */
export interface OutOfDate {
  readonly field: string;
  readonly title: string;
  readonly was: string;
  readonly now: string;
}

/** Boxes of a filled copy that would be filled otherwise today. What isn't known any more says nothing. */
export function outOfDate(filled: FilledWith, at: Standpoint, subject: SubjectId | undefined): readonly OutOfDate[] {
  const form = at.practice.forms?.[filled.form];
  if (form === undefined) return [];
  const given = { at, subject };
  return namedBoxes(form, given).flatMap((named) => {
    const was = filled.values[named.box.field];
    const said = was === undefined ? undefined : boxText(named, given);
    if (was === undefined || said === undefined) return [];
    const now = said.is === 'text' ? said.text : said.is === 'ticked' ? (said.ticked ? 'yes' : 'no') : undefined;
    return now === undefined || now === was
      ? []
      : [{ field: named.box.field, title: filled.titles?.[named.box.field] ?? boxTitle(named.box.field), was, now }];
  });
}

/** What a copy is filled with, in the same words. */
export function filledTexts(
  form: NonNullable<Standpoint['practice']['forms']>[string],
  given: { at: Standpoint; subject: SubjectId | undefined },
): Readonly<Record<string, string>> {
  const texts = namedBoxes(form, given).flatMap((named): readonly (readonly [string, string])[] => {
    const said = boxText(named, given);
    if (said?.is === 'text') return [[named.box.field, said.text]];
    return said?.is === 'ticked' ? [[named.box.field, said.ticked ? 'yes' : 'no']] : [];
  });
  return Object.fromEntries(texts);
}
