import { LotfileError } from '../../vocabulary/errors.ts';

/** A finished file that isn't what was ordered: it must not leave the house. */
export function misread(title: string, what: string): LotfileError {
  return new LotfileError('internal', `"${title}" does not read back as it was put together: ${what}.`, {
    about: title,
    next: 'Build the packet again; if it happens twice, please report it and do not hand this file in.',
  });
}
