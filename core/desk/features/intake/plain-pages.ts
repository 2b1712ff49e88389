import type { KeptRendition, Lot } from '../../../store/index.ts';

/** The newest sound pages of a file as it came; pages made as asked (cleaned up, blacked out) are another paper's. */
export function plainPages(lot: Lot, original: string): KeptRendition | undefined {
  return lot.renditionsOf(original).find(({ asked }) => asked === '');
}
