import { LotfileError } from '../../vocabulary/errors.ts';
import { type Cents, parseMoney } from '../../vocabulary/money.ts';

/**
 * Reads an amount as one writes it: "62,000 usd", "$62,000", "62000.50", "-500".
 * @throws LotfileError `wrong use`
 */
export function centsSaid(said: string, about: string): Cents {
  const minus = /^\s*[-−]/.test(said);
  const bare = said.replace(/^\s*[-−]\s*/, '');
  const cents = parseMoney(/[a-z$]/i.test(bare) ? bare : `${bare} usd`);
  if (cents !== undefined) return minus ? -cents : cents;
  throw new LotfileError('wrong use', `"${said}" is no amount of money.`, {
    about,
    next: 'Write 240 usd or 1,250.50 usd.',
  });
}

/** The same where no minus makes sense. */
export function plainCents(said: string | undefined, about: string): Cents | undefined {
  if (said === undefined) return undefined;
  const cents = centsSaid(said, about);
  if (cents >= 0) return cents;
  throw new LotfileError('wrong use', `The ${about} can't be less than nothing.`, {
    about: said,
    next: 'Leave the minus out.',
  });
}
