import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceOf } from '../../core/intake/page/content-balance.ts';

const read = (content: string) => balanceOf(Buffer.from(content, 'latin1'));

describe('reading a content stream for what it leaves open', () => {
  it.each([
    ['q Q', 0, 0, false],
    ['q q Q', 1, 0, false],
    ['Q q', 1, 1, false],
    ['q(Q)Tj', 1, 0, false],
    ['q[(Q)3(\\)Q)]TJ Q', 0, 0, false],
    ['q % Q Q\nQ', 0, 0, false],
    ['/Q gs q/q gs', 1, 0, false],
    ['q <51> Tj Q', 0, 0, false],
    ['/P <</MCID 0>> BDC q Q EMC', 0, 0, false],
    ['BI /W 1 /H 1 /CS /G /BPC 8 ID Q EI q', 1, 0, false],
    ['BI /W 9 /H 1 ID \u0001 EI \u0002\u0003 EI q', 1, 0, false],
    ['q (never closed', 1, 0, true],
    ['BT (x) Tj', 0, 0, true],
    ['BI /W 1 ID \u0001\u0002', 0, 0, true],
    ['0 0 1 1 re W n q', 1, 0, true],
    ['q 0 0 1 1 re W n Q', 0, 0, false],
    ['/A BMC q Q', 0, 0, true],
    ['<51', 0, 0, true],
    ['', 0, 0, false],
  ])('reads %j', (content, openSaves, extraRestores, odd) => {
    expect(read(content)).toEqual({ openSaves, extraRestores, odd });
  });

  it('always ends, whatever the bytes, and counts no more saves than there are q', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
        const { openSaves, extraRestores } = balanceOf(bytes);
        return (
          openSaves <= bytes.filter((byte) => byte === 0x71).length &&
          extraRestores <= bytes.filter((byte) => byte === 0x51).length
        );
      }),
    );
  });

  it('agrees with a count of the operators in content made of operators and strings', () => {
    const piece = fc.oneof(
      fc.constantFrom('q', 'Q', 'BT ET', '1 0 0 1 5 5 cm', '/F1 9 Tf', '% q Q\n', '<7151>'),
      fc.string({ maxLength: 12 }).map((text) => `(${text.replace(/[\\()]/g, (char) => `\\${char}`)}) Tj`),
    );
    fc.assert(
      fc.property(fc.array(piece), (pieces) => {
        let depth = 0;
        let extra = 0;
        for (const word of pieces) {
          if (word === 'q') depth += 1;
          else if (word === 'Q' && depth === 0) extra += 1;
          else if (word === 'Q') depth -= 1;
        }
        expect(read(pieces.join('\n'))).toMatchObject({ openSaves: depth, extraRestores: extra, odd: false });
      }),
    );
  });
});
