import { LotfileError } from '../../../vocabulary/errors.ts';

/** A kept paper that isn't what keeping wrote: never guess, name it and say how to get it back. */
export function damaged(title: string, what: string): LotfileError {
  return new LotfileError('paper damaged', `The kept pages of "${title}" can't be read: ${what}.`, {
    about: title,
    next: 'Keep this paper again from its original, or put back a backup of the lot, then build the packet again.',
  });
}
