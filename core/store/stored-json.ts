import { lotDamaged } from './trouble.ts';

/**
 * What a row of the lot holds as JSON: written by us, so what can't be read was damaged since.
 * @throws LotfileError `lot damaged`
 */
export const storedJson: typeof JSON.parse = (text) => {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw lotDamaged('lot.sqlite', { say: 'lot.sqlite is damaged: something written in it can’t be read.', cause });
  }
};
