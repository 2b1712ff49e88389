/** Characters that hide, reorder or break a line of text. */
const unseen = /[\p{Cc}\p{Cf}\u2028\u2029]/gu;
const longest = 200;

/** The last part of a told name, fit to be shown; it is never used as a path. */
export function shownName(told: string | null | undefined, fallback: string): string {
  const last =
    (told ?? '')
      .split(/[/\\]/)
      .filter((part) => part !== '')
      .at(-1) ?? '';
  const seen = last.normalize('NFC').replace(unseen, '').trim();
  return seen === '' || seen === '.' || seen === '..' ? fallback : seen.slice(-longest);
}

/** The folders before the name, fit to be shown. */
export function shownFolder(told: string): string {
  return told
    .split(/[/\\]/)
    .slice(0, -1)
    .map((part) => part.normalize('NFC').replace(unseen, '').trim())
    .filter((part) => part !== '' && part !== '.' && part !== '..')
    .join('/')
    .slice(0, longest);
}
