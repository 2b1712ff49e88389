import type { RegularFile } from './regular-file.ts';
import type { Value } from './values.ts';
import { valueText } from './write-value.ts';

/**
 * An incremental update (ISO 32000-1, 7.5.6) that puts other values in the place of objects, or adds some.
 * @param startAt length of the file it will be appended to
 */
export function appendedTail(file: RegularFile, changed: ReadonlyMap<number, Value>, startAt: number): Buffer {
  const parts: string[] = ['\n'];
  const rows: string[] = [];
  let at = startAt + 1;
  for (const [number, value] of [...changed].toSorted(([a], [b]) => a - b)) {
    const text = `${number} 0 obj\n${valueText(value)}\nendobj\n`;
    rows.push(`${number} 1\n${String(at).padStart(10, '0')} 00000 n \n`);
    parts.push(text);
    at += text.length;
  }
  const size = Math.max(file.size, ...[...changed.keys()].map((number) => number + 1));
  const trailer = new Map(file.trailer).set('Size', size).set('Prev', file.tableStart);
  parts.push(`xref\n${rows.join('')}trailer\n${valueText(trailer)}\nstartxref\n${at}\n%%EOF\n`);
  return Buffer.from(parts.join(''), 'latin1');
}
