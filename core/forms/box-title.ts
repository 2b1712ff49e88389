/** "owner_1_name[0]" as a person would say it; the hint a reader shows goes before. */
export function boxTitle(name: string, hint = ''): string {
  if (hint.trim() !== '') return hint.trim();
  const last = name.split('.').at(-1) ?? name;
  const words = last
    .replace(/\[\d+\]/g, '')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .replaceAll(/[_-]+/g, ' ')
    .trim();
  return words === '' ? name : words.charAt(0).toUpperCase() + words.slice(1);
}
