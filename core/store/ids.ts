import { randomBytes } from 'node:crypto';

const letters = '0123456789abcdefghjkmnpqrstvwxyz';

type IdPrefix = 'p' | 'e' | 's' | 'v' | 'k' | 'h' | 'r' | 'c' | 'o' | 'i' | 'm' | 'n' | 'w' | 'd';

/** A new row id: prefix and 80 random bits, so that two laptops never give the same id to two papers. */
export function newId(prefix: IdPrefix): string {
  let bits = BigInt(`0x${randomBytes(10).toString('hex')}`);
  let text = '';
  for (let i = 0; i < 16; i += 1) {
    text += letters[Number(bits & 31n)];
    bits >>= 5n;
  }
  return `${prefix}-${text}`;
}
