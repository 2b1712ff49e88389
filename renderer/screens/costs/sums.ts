/** A sum as it stands in a ruled column: no sign of the currency, a dash for nothing. */
export function columnSum(cents: number | undefined): string {
  if (cents === undefined) return '';
  if (cents === 0) return '—';
  const sign = cents < 0 ? '−' : '';
  const whole = Math.trunc(Math.abs(cents) / 100).toLocaleString('en-US');
  const part = Math.abs(cents) % 100;
  return `${sign}${whole}${part === 0 ? '' : `.${String(part).padStart(2, '0')}`}`;
}

/** As one types it again: "18,500" or "9,840.50"; empty for nothing. */
export function typedSum(cents: number | undefined): string {
  return cents === undefined || cents === 0 ? '' : columnSum(cents).replace('−', '-');
}

/** "44.2 %" of hundredths of a percent. */
export function shareWords(rate: number | undefined): string {
  return rate === undefined ? '' : `${Math.round(rate / 10) / 10} %`;
}

/** What was typed, or undefined where the field is empty: an empty field says nothing. */
export function said(text: string): string | undefined {
  return text.trim() === '' ? undefined : text.trim();
}

/** Drops fields nobody filled: a request takes what is said, not what is undefined. */
export function filled<T extends object>(fields: T): { [K in keyof T]?: Exclude<T[K], undefined> };
export function filled(fields: object): object {
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
}
