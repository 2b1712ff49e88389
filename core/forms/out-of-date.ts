import type { Standpoint } from '../readiness/standpoint.ts';
import type { FilledWith, FormRule } from '../vocabulary/forms.ts';
import type { SubjectId } from '../vocabulary/lot.ts';
import { boxText, type NamedBox, namedBoxes } from './box-text.ts';
import { boxTitle } from './box-title.ts';
import type { SourceCase } from './source-value.ts';

/** A box whose value is another by now; "" where it is empty. */
export interface OutOfDate {
  readonly field: string;
  readonly title: string;
  readonly was: string;
  readonly now: string;
}

/** What a box is filled with, "" for one known to stay empty; undefined for one that isn't filled, or not known. */
function textNow(named: NamedBox, given: SourceCase): { readonly text: string; readonly open: boolean } | undefined {
  if (named.spare === true) return { text: '', open: false };
  const said = boxText(named, given);
  switch (said?.is) {
    case 'text':
      return { text: said.text, open: false };
    case 'ticked':
      return { text: said.ticked ? 'yes' : 'no', open: false };
    case 'empty':
      return { text: '', open: said.open };
    case 'missing':
    case 'wrong sort':
    case undefined:
      return undefined;
  }
}

/** Boxes of a filled copy that would be filled otherwise today. What isn't known any more says nothing. */
export function outOfDate(filled: FilledWith, at: Standpoint, subject: SubjectId | undefined): readonly OutOfDate[] {
  const form = at.practice.forms?.[filled.form];
  if (form === undefined) return [];
  const given = { at, subject };
  return namedBoxes(form, given).flatMap((named) => {
    const { field } = named.box;
    const was = filled.values[field];
    const now = was === undefined ? undefined : textNow(named, given);
    if (was === undefined || now === undefined || now.open || now.text === was) return [];
    return [{ field, title: filled.titles?.[field] ?? boxTitle(field), was, now: now.text }];
  });
}

/** What a copy is filled with, in the same words; boxes that stay empty among them, for what comes in later. */
export function filledTexts(form: FormRule, given: SourceCase): Readonly<Record<string, string>> {
  const texts = namedBoxes(form, given).map((named) => [named.box.field, textNow(named, given)?.text] as const);
  return Object.fromEntries(texts.flatMap(([field, text]) => (text === undefined ? [] : [[field, text]])));
}
