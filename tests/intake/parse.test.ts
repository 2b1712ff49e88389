import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CutShort, Parser } from '../../core/intake/regular/parse.ts';
import type { Value } from '../../core/intake/regular/values.ts';
import { valueText } from '../../core/intake/regular/write-value.ts';

const read = (text: string): Value => new Parser(text).value();

/** Examples from ISO 32000-1, 7.3 (objects), as far as they fit a line. */
describe('reading PDF objects', () => {
  it.each<[string, Value]>([
    ['true', true],
    ['null', null],
    ['-98', -98],
    ['+17.', 17],
    ['-.002', -0.002],
    [
      '(Strings may contain balanced parentheses ( ) and special characters ( * ! & } ^ % and so on ).)',
      { text: 'Strings may contain balanced parentheses ( ) and special characters ( * ! & } ^ % and so on ).' },
    ],
    ['(These \\\ntwo strings \\\nare the same.)', { text: 'These two strings are the same.' }],
    [
      '(This string contains \\245two octal characters\\307.)',
      { text: 'This string contains \u00a5two octal characters\u00c7.' },
    ],
    ['(\\0053)', { text: '\u00053' }],
    ['(\\053)', { text: '+' }],
    ['(\\n\\)\\\\)', { text: '\n)\\' }],
    ['<4E6F762073686D6F7A206B6120706F702E>', { text: 'Nov shmoz ka pop.' }],
    ['<901FA>', { text: '\u0090\u001f\u00a0' }],
    ['/Lime#20Green', { name: 'Lime Green' }],
    ['/A;Name_With-Various***Characters?', { name: 'A;Name_With-Various***Characters?' }],
    ['[ 549 3.14 false (Ralph) /SomeName ]', [549, 3.14, false, { text: 'Ralph' }, { name: 'SomeName' }]],
    ['[12 0 R 7 8]', [{ ref: 12 }, 7, 8]],
    [
      '<< /Length 8 0 R /K [ 1 ] >>',
      new Map<string, Value>([
        ['Length', { ref: 8 }],
        ['K', [1]],
      ]),
    ],
  ])('reads %s', (text, value) => {
    expect(read(text)).toEqual(value);
  });

  it.each(['<< /A', '(open', '<12', '[ 1 2', ''])('says that %j is cut short', (text) => {
    expect(() => read(text)).toThrow(CutShort);
  });

  it('stops at nesting that no sound file has', () => {
    expect(() => read('['.repeat(100_000))).toThrow('nested too deeply');
  });

  it('reads back whatever it writes', () => {
    const { value } = fc.letrec<{ value: Value }>((tie) => ({
      value: fc.oneof(
        { maxDepth: 3 },
        fc.constantFrom<Value>(null, true, false),
        fc.integer({ min: -1e6, max: 1e6 }),
        fc.nat(9999).map((ref) => ({ ref })),
        fc.string({ unit: 'binary-ascii' }).map((text) => ({ text })),
        fc
          .string({ unit: 'binary-ascii', minLength: 1 })
          .filter((name) => !name.includes('\0'))
          .map((name) => ({ name })),
        fc.array(tie('value'), { maxLength: 4 }),
        fc
          .dictionary(fc.stringMatching(/^[A-Za-z]{1,6}$/), tie('value'))
          .map((entries) => new Map(Object.entries(entries))),
      ),
    }));
    fc.assert(
      fc.property(value, (given) => {
        expect(read(valueText(given))).toEqual(given);
      }),
    );
  });
});
