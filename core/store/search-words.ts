/** Letters that carry no removable accent but are typed as their plain cousins. */
const cousins: Readonly<Record<string, string>> = {
  đ: 'd',
  ð: 'd',
  ł: 'l',
  ø: 'o',
  ı: 'i',
  ħ: 'h',
  ŧ: 't',
  ß: 'ss',
  æ: 'ae',
  œ: 'oe',
  þ: 'th',
};

/** Folds text for searching: lower case, accents off, "Đặng" as "dang". */
export function foldWords(text: string): string {
  // Most words are plain; the long way costs ten times as much.
  if (/^[ -~\s]*$/.test(text)) return text.toLowerCase();
  // NFKD also opens ligatures ("ﬁ") that PDFs are full of.
  const plain = text
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase();
  return plain.replace(/[đðłøıħŧßæœþ]/g, (letter) => cousins[letter] ?? letter);
}

const joinedNumber = /[\p{L}\p{N}]+(?:[-./][\p{L}\p{N}]+)+/gu;

/**
 * What the index is given: the folded text, and every number written with separators once more without them,
 * so that 041220070 finds 041-22-0070.
 */
export function indexedWords(text: string): string {
  const folded = foldWords(text);
  const joined = (folded.match(joinedNumber) ?? []).filter((word) => /\d/.test(word));
  return joined.length === 0 ? folded : `${folded}\n${joined.map((word) => word.replace(/[-./]/g, '')).join(' ')}`;
}

/** One thing looked for: its words in a row, the last of them a beginning. */
export interface Phrase {
  readonly words: readonly string[];
}

/**
 * Reads what a person typed. Quoted words stand together; everything else that is no letter or digit only separates,
 * so no typed sign can be a syntax error.
 */
export function readQuery(text: string): readonly Phrase[] {
  const pieces = foldWords(text.slice(0, 300)).matchAll(/["“”„«»]([^"“”„«»]*)["“”„«»]|([^\s"“”„«»]+)/gu);
  const phrases: Phrase[] = [];
  for (const [, quoted, plain] of pieces) {
    const words = (quoted ?? plain ?? '').match(/[\p{L}\p{N}]+/gu);
    if (words !== null) phrases.push({ words: [...words] });
  }
  return phrases.slice(0, 12);
}

/** One letter or digit alone is looked for as a whole word: as a beginning it would match nearly everything. */
export function phraseSyntax(phrase: Phrase): string {
  const last = phrase.words.at(-1) ?? '';
  return `"${phrase.words.join(' ')}"${last.length > 1 ? '*' : ''}`;
}
