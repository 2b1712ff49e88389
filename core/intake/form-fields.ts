import type { RegularFile } from './regular/regular-file.ts';
import { type Dict, isDict, isList, isRef, nameOf, type Value } from './regular/values.ts';

/** Every field of the form, with what it inherits (FT, V) laid in. */
export function formFields(file: RegularFile): readonly Dict[] {
  const fields: Dict[] = [];
  const seen = new Set<number>();
  const walk = (at: Value, above: Dict) => {
    if (isRef(at)) {
      if (seen.has(at.ref)) return;
      seen.add(at.ref);
    }
    const own = file.resolve(at);
    if (!isDict(own)) return;
    const dict = new Map([...above, ...own]);
    fields.push(dict);
    const kids = file.resolve(own.get('Kids'));
    const passedOn = new Map([...dict].filter(([key]) => key === 'FT' || key === 'V'));
    if (isList(kids)) for (const kid of kids) walk(kid, passedOn);
  };
  const form = file.dict(file.dict(file.trailer.get('Root')).get('AcroForm'));
  const top = file.resolve(form.get('Fields'));
  if (isList(top)) for (const field of top) walk(field, new Map());
  return fields;
}

/** True where a signature field holds a signature (ISO 32000-1, 12.7.4.5), wherever in the file it hides. */
export function isSealed(file: RegularFile): boolean {
  return formFields(file).some((field) => {
    if (nameOf(file.resolve(field.get('FT'))) !== 'Sig') return false;
    const signature = file.resolve(field.get('V'));
    return isDict(signature) && (signature.has('Contents') || signature.has('ByteRange'));
  });
}
