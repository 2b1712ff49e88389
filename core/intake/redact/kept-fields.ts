import type { RegularFile } from '../regular/regular-file.ts';
import { type Dict, isDict, isList, isRef, nameOf, type Value } from '../regular/values.ts';

/** Annotations that carry what nobody sees on the sheet. */
const dropped = new Set(['Popup', 'FileAttachment', 'RichMedia', 'Screen', 'Movie', 'Sound', '3D', 'Redact']);
/** ISO 32000-1, 12.5.3: hidden, and no view. */
const unseenFlags = 0b100010;

/** Whether an annotation of a page that stays as it is may come along. */
export function staysOnPage(file: RegularFile, annotation: Value): boolean {
  const dict = file.dict(annotation);
  const flags = file.resolve(dict.get('F'));
  if (typeof flags === 'number' && (flags & unseenFlags) !== 0) return false;
  return !dropped.has(nameOf(file.resolve(dict.get('Subtype'))) ?? '');
}

export interface KeptForm {
  /** Fields that lead to no widget that stays; nothing may point at them. */
  readonly gone: ReadonlySet<number>;
  /** Fields whose children are not all there any more. */
  readonly changed: ReadonlyMap<number, Dict>;
  readonly form: Dict | undefined;
}

/** The form without the fields whose widgets are gone, their values with them. */
export function keptForm(file: RegularFile, widgets: ReadonlySet<number>): KeptForm {
  const gone = new Set<number>();
  const changed = new Map<number, Dict>();
  const path = new Set<number>();
  const keeps = (at: Value): boolean => {
    if (!isRef(at) || path.has(at.ref)) return false;
    path.add(at.ref);
    const dict = file.dict(at);
    const kids = file.resolve(dict.get('Kids'));
    const staying = isList(kids) ? kids.filter(keeps) : [];
    const stays = widgets.has(at.ref) || staying.length > 0;
    if (!stays) gone.add(at.ref);
    else if (isList(kids) && staying.length < kids.length) changed.set(at.ref, new Map(dict).set('Kids', staying));
    return stays;
  };
  const whole = file.resolve(file.dict(file.trailer.get('Root')).get('AcroForm'));
  if (!isDict(whole)) return { gone, changed, form: undefined };
  const fields = file.resolve(whole.get('Fields'));
  const staying = isList(fields) ? fields.filter(keeps) : [];
  if (staying.length === 0) return { gone, changed, form: undefined };
  const form = new Map<string, Value>([['Fields', staying]]);
  for (const key of ['DA', 'DR', 'NeedAppearances', 'Q']) {
    const value = whole.get(key);
    if (value !== undefined) form.set(key, value);
  }
  return { gone, changed, form };
}
