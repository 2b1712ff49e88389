import { LotfileError } from '../vocabulary/errors.ts';

/**
 * What a row of the lot holds as JSON: written by us, so what can't be read was damaged since.
 * @throws LotfileError `lot damaged`
 */
export const storedJson: typeof JSON.parse = (text) => {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new LotfileError('lot damaged', 'lot.sqlite is damaged: something written in it can’t be read.', {
      about: 'lot.sqlite',
      next: 'Close the lot and mend it: mend. What can’t be read is taken from its copies.',
      cause,
    });
  }
};
