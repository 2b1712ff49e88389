/** Money in a ruled column: no sign of the currency (it stands in the head), a dash for nothing, cents where any are. */
export function cell(cents: number | undefined, withCents = false): string {
  if (cents === undefined) return '';
  if (cents === 0) return '—';
  const sign = cents < 0 ? '−' : '';
  const whole = Math.trunc(Math.abs(cents) / 100).toLocaleString('en-US');
  const part = String(Math.abs(cents) % 100).padStart(2, '0');
  return `${sign}${whole}${withCents ? `.${part}` : ''}`;
}

/** One column, one way of writing: cents everywhere as soon as one sum has some. */
export function anyCents(sums: readonly (number | undefined)[]): boolean {
  return sums.some((cents) => cents !== undefined && cents % 100 !== 0);
}

/** "44.2 %" of hundredths of a percent. */
export function percentWords(rate: number | undefined): string {
  return rate === undefined ? '' : `${Math.round(rate / 10) / 10} %`;
}
