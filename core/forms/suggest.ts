import type { BlankField } from './form-model.ts';

/** Sources and the words on a box that most likely ask for them (templates/forms/words.yaml). */
export type BoxWords = Readonly<Record<string, readonly string[]>>;

const most = 3;

function plain(text: string): string {
  const words = text
    .normalize('NFC')
    .replace(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u);
  return ` ${words.filter((word) => word !== '').join(' ')} `;
}

/**
 * What a box nobody mapped most likely asks for, by the words of its hint and name; best first, at most three.
 * A guess to choose from, never a value.
 */
export function suggestSources(field: Pick<BlankField, 'name' | 'hint'>, words: BoxWords): readonly string[] {
  const said = plain(`${field.hint ?? ''} ${field.name}`);
  const found = Object.entries(words).flatMap(([source, phrases]) => {
    const longest = phrases.filter((phrase) => said.includes(plain(phrase))).map(({ length }) => length);
    return longest.length === 0 ? [] : [{ source, length: Math.max(...longest) }];
  });
  return found
    .toSorted((a, b) => b.length - a.length)
    .slice(0, most)
    .map(({ source }) => source);
}
