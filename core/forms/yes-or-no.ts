import type { FieldOption } from './form-model.ts';

/** What forms call the two answers (common practice, no source). */
const yes = ['yes', 'y', 'true'];
const no = ['no', 'n', 'false'];

function plain(text: string): string {
  return text.normalize('NFC').trim().toLowerCase();
}

export function saysNo(text: string): boolean {
  return no.includes(plain(text));
}

/** The one option that says yes, or no: by what people read, else by what is stored. Undefined where none or several do. */
export function optionSaying(answer: boolean, options: readonly FieldOption[]): FieldOption | undefined {
  const words = answer ? yes : no;
  const read = options.filter(({ label }) => words.includes(plain(label)));
  const found = read.length > 0 ? read : options.filter(({ value }) => words.includes(plain(value)));
  return found.length === 1 ? found[0] : undefined;
}
