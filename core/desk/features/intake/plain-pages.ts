import type { KeptRendition, Lot } from '../../../store/index.ts';

/** Pages with black places belong to the paper they were made for; a file's own pages are those without. */
const blackened = '; blacked out/';

/** The newest sound pages of a file as it came; undefined where none were made. */
export function plainPages(lot: Lot, original: string): KeptRendition | undefined {
  return lot.renditionsOf(original).find(({ recipe }) => !recipe.includes(blackened));
}
