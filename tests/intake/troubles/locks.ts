import { throughQpdf } from '../make-pdf.ts';
import { changed, plainText, sound, type Trouble } from './trouble.ts';

/** The four ways of locking that stand in ISO 32000 (RC4 40 and 128, AES 128 and 256), as qpdf writes them. */
const ways = [
  ['RC4 with 40 bits', ['40']],
  ['RC4 with 128 bits', ['128', '--use-aes=n']],
  ['AES with 128 bits', ['128', '--use-aes=y']],
  ['AES with 256 bits', ['256']],
] as const;

function locked(user: string, way: readonly string[]): Promise<Buffer> {
  return throughQpdf(sound, ['--allow-weak-crypto', '--encrypt', user, 'owner word', ...way, '--']);
}

const kept = { rung: 'normalised', text: plainText, like: sound } as const;

export const locks: readonly Trouble[] = [
  ...ways.flatMap(([say, way]): readonly Trouble[] => [
    {
      what: `a lock against changes, ${say}`,
      make: () => locked('', way),
      ends: { ...kept, notes: /locked against changes/ },
    },
    {
      what: `a password, ${say}`,
      make: () => locked('lender', way),
      ends: { refused: /opens only with a password/, asks: 'password' },
    },
    {
      what: `a password that is given, ${say}`,
      make: () => locked('lender', way),
      password: 'lender',
      ends: { ...kept, notes: /locked with a password/ },
    },
  ]),
  {
    what: 'a password where the owner\u2019s is given',
    make: () => locked('lender', ['256']),
    password: 'owner word',
    ends: kept,
  },
  {
    what: 'a password where another is given',
    make: () => locked('lender', ['256']),
    password: 'Lender',
    ends: { refused: /does not open with this password/, asks: 'password' },
  },
  {
    what: 'a password beyond plain letters',
    make: () => locked('Schl\u00fcssel', ['256']),
    password: 'Schl\u00fcssel',
    ends: kept,
  },
  {
    what: 'a lock and a broken table of objects',
    make: async () => changed(await locked('', ['128', '--use-aes=y']), [/\d{10} 00000 n/g, '0000000001 00000 n']),
    ends: { ...kept, rung: 're-saved, then normalised' },
  },
  {
    what: 'a lock that nobody knows',
    make: async () => changed(await locked('', ['128', '--use-aes=y']), [/\/Filter \/Standard/, '/Filter /Nobodys!']),
    ends: { refused: /locked in a way/ },
  },
];
