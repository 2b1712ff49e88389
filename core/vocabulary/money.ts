/** Money in whole US cents: no fractions, so no rounding surprises. */
export type Cents = number;

/** What the next going costs. Cents; undefined where nobody noted a price. */
export interface FeeDue {
  readonly fee: Cents | undefined;
  readonly feeNote: string | undefined;
  /** They came once in vain: not passed, or nobody let them in. */
  readonly again: boolean;
  /** They turned it away and never took it, nor its fee. */
  readonly unpaid?: boolean | undefined;
}

/**
 * Reads "240 usd", "1,250.50 usd", "$240", "free".
 * @returns undefined where the words are no amount.
 */
export function parseMoney(text: string): Cents | undefined {
  const plain = text.trim().toLowerCase();
  if (plain === 'free') return 0;
  const match = /^(?:\$\s*([\d,]+)(?:\.(\d{2}))?|([\d,]+)(?:\.(\d{2}))?\s*(?:usd|dollars?))$/.exec(plain);
  if (match === null) return undefined;
  const whole = match[1] ?? match[3] ?? '';
  if (!/^(\d{1,3}(,\d{3})+|\d+)$/.test(whole)) return undefined;
  const cents = Number(whole.replaceAll(',', '')) * 100 + Number(match[2] ?? match[4] ?? '0');
  return Number.isSafeInteger(cents) ? cents : undefined;
}

/** "$1,250.50", "$240": cents only where there are any. */
export function moneyInWords(cents: Cents): string {
  const sign = cents < 0 ? '-' : '';
  const whole = Math.trunc(Math.abs(cents) / 100).toLocaleString('en-US');
  const part = Math.abs(cents) % 100;
  return `${sign}$${whole}${part === 0 ? '' : `.${String(part).padStart(2, '0')}`}`;
}
