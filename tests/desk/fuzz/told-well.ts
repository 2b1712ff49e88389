import { errorCodes, type LotfileError } from '../../../core/vocabulary/errors.ts';

/** What no sentence for a person holds: the insides of programs. */
const insides = /SQLITE|TypeError|RangeError|ZodError|\[object |undefined|\bNaN\b|\n\s+at |node:|ENOENT|EACCES|errno/;

/**
 * How an error falls short of a sentence of the closed set, if it does. `internal` does by itself: it is what a defect
 * looks like from outside.
 * @param given the argument as text: what a person wrote may stand in the sentence.
 */
export function notToldWell(error: LotfileError, given: string): string | undefined {
  if (error.code === 'internal') return `internal: ${error.message}`;
  if (!errorCodes.includes(error.code)) return `a code of no set: ${String(error.code)}`;
  for (const text of [error.message, error.next]) {
    if (text === undefined) continue;
    if (text.trim().length < 8) return `no sentence: ${JSON.stringify(text)}`;
    if (text.length > 20_000) return `a sentence of ${text.length} letters`;
    if (!/[.!?:…]["”'’)]*$/.test(text.trim())) return `no end of a sentence: ${text}`;
    const [found] = insides.exec(text) ?? [];
    if (found !== undefined && !given.includes(found)) return `the insides of the program: ${text}`;
  }
  return undefined;
}
