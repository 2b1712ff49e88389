import type { Truth } from '../../vocabulary/facts.ts';

function groupsOf(text: string): readonly string[] {
  return text
    .toUpperCase()
    .split(/[^A-Z0-9]+/)
    .filter((group) => group !== '');
}

function padless(groups: readonly string[]): string {
  return groups.map((group) => group.replace(/^0+(?=.)/, '')).join('-');
}

/**
 * Whether two parcel numbers are one: dots, dashes, blanks and case don't count.
 * 'unknown' where they differ only in leading zeros of a group or in trailing groups of zeros.
 */
export function sameParcel(a: string, b: string): Truth {
  const [one, two] = [groupsOf(a), groupsOf(b)];
  if (one.join('') === two.join('')) return true;
  const trimmed = (groups: readonly string[]): string => padless(groups).replace(/(?:-0)+$/, '');
  if (one.length > 0 && trimmed(one) === trimmed(two)) return 'unknown';
  return false;
}
