import type { FormRule } from '../vocabulary/forms.ts';
import type { BlankForm } from './form-model.ts';

/** How surely a blank is the mapped form. */
export type Recognised = 'this very file' | 'its boxes' | 'another issue' | 'no';

/** Another issue of a form keeps most of its boxes (common practice, no source). */
const most = 0.6;

function namesOf(form: FormRule): readonly string[] {
  const rows = form.rows.flatMap(({ boxes }) => boxes.map(({ field }) => field.replaceAll('{n}', '1')));
  return [...form.boxes.map(({ field }) => field), ...rows];
}

/** Tells a blank by its hash, by the names of its boxes, or as another issue of the same form. */
export function recognise(form: FormRule, blank: BlankForm, sha256: string): Recognised {
  if (form.sha256 === sha256) return 'this very file';
  const there = new Set(blank.fields.map(({ name }) => name));
  const all = namesOf(form);
  const marks = form.knownBy.length > 0 ? form.knownBy : all;
  if (marks.length > 0 && marks.every((name) => there.has(name))) return 'its boxes';
  const found = all.filter((name) => there.has(name)).length;
  return all.length > 0 && found / all.length >= most ? 'another issue' : 'no';
}
