import { isDict, isList, type Value } from './values.ts';

function escapedName(name: string): string {
  return name.replace(/[^!$&'*+,\-.0-9:;=?@A-Z\\^_`a-z|~]/g, (char) => {
    return `#${char.charCodeAt(0).toString(16).padStart(2, '0')}`;
  });
}

/** A PDF object as it stands in a file (one character per byte). */
export function valueText(value: Value): string {
  if (value === null || typeof value === 'boolean') return String(value);
  if (typeof value === 'number') return String(Number(value.toFixed(6)));
  if (isList(value)) return `[ ${value.map(valueText).join(' ')} ]`;
  if (isDict(value))
    return `<< ${[...value].map(([key, item]) => `/${escapedName(key)} ${valueText(item)}`).join(' ')} >>`;
  if ('ref' in value) return `${value.ref} 0 R`;
  if ('name' in value) return `/${escapedName(value.name)}`;
  return `<${Buffer.from(value.text, 'latin1').toString('hex')}>`;
}
