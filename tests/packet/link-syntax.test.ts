import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ObjectParser } from '../../core/packet/link/syntax/object-parser.ts';
import { numberText, serialise } from '../../core/packet/link/syntax/serialise.ts';
import { stringBytes, textOf, textString } from '../../core/packet/link/syntax/text-string.ts';
import {
  isArray,
  isDict,
  nameOf,
  numberOf,
  PdfName,
  PdfRef,
  PdfString,
  type PdfValue,
} from '../../core/packet/link/syntax/values.ts';

function parse(text: string): PdfValue {
  return new ObjectParser(Buffer.from(`${text} `, 'latin1'), 0, 'a paper').value();
}

/** Renumbers by ten, so that a forgotten reference shows. */
const again = (text: string): string => serialise(parse(text), (ref) => ref.num + 10);

describe('reading objects', () => {
  // ISO 32000-1:2008, table 4 (examples of literal names); quoted from memory.
  test.each([
    ['/Name1', 'Name1'],
    ['/A;Name_With-Various***Characters?', 'A;Name_With-Various***Characters?'],
    ['/1.2', '1.2'],
    ['/$$', '$$'],
    ['/Lime#20Green', 'Lime Green'],
    ['/paired#28#29parentheses', 'paired()parentheses'],
    ['/The_Key_of_F#23_Minor', 'The_Key_of_F#_Minor'],
    ['/A#42', 'AB'],
    ['/', ''],
  ])('the name %s is %s', (written, name) => {
    expect(nameOf(parse(written))).toBe(name);
    expect(nameOf(parse(again(written)))).toBe(name);
  });

  // ISO 32000-1:2008, 7.3.4.2 and 7.3.4.3 (examples of strings); quoted from memory.
  test.each([
    ['(This is a string)', 'This is a string'],
    [
      '(Strings may contain balanced parentheses ( ) and\nspecial characters (*!&}^% and so on).)',
      'Strings may contain balanced parentheses ( ) and\nspecial characters (*!&}^% and so on).',
    ],
    ['()', ''],
    ['(These \\\ntwo strings \\\nare the same.)', 'These two strings are the same.'],
    ['(with\\245two octal\\307)', 'with\xa5two octal\xc7'],
    ['(\\0053)', '\x053'],
    ['(\\053)', '+'],
    ['(\\53)', '+'],
    ['(a\r\nb\rc)', 'a\nb\nc'],
    ['(\\n\\(\\)\\\\\\x)', '\n()\\x'],
    ['<4E6F762073686D6F7A206B6120706F702E>', 'Nov shmoz ka pop.'],
    ['<901FA3>', '\x90\x1f\xa3'],
    ['<901FA>', '\x90\x1f\xa0'],
  ])('the string %j holds %j, and is copied as it stands', (written, bytes) => {
    const value = parse(written);
    expect(value instanceof PdfString && stringBytes(value)).toBe(bytes);
    expect(again(written)).toBe(written);
  });

  test.each([
    ['0', 0],
    ['-17', -17],
    ['34.5', 34.5],
    ['+17', 17],
    ['4.', 4],
    ['-.002', -0.002],
    ['0.000000001', 1e-9],
  ])('the number %s is %s and keeps its value when written', (written, value) => {
    expect(numberOf(parse(written))).toBe(value);
    expect(numberOf(parse(again(written)))).toBe(value);
  });

  test('references, and numbers that only look like them', () => {
    expect(again('[1 0 R 2 0 3 0 R 4 5 6]')).toBe('[11 0 R 2 0 13 0 R 4 5 6 ]');
    expect(again('[1 0 RG]'.replace('RG', 'R/G'))).toBe('[11 0 R /G ]');
    expect(() => parse('[1 0 RG]')).toThrow(/something unexpected/);
    const ref = parse('12 3 R');
    expect(ref instanceof PdfRef && [ref.num, ref.gen]).toEqual([12, 3]);
  });

  test('comments and any white space between things', () => {
    const value = parse('<</A%x >>\n1/B[%(\r(%not a comment)]/C<<>>/D null\0/E true>>');
    expect(isDict(value) && [...value.keys()]).toEqual(['A', 'B', 'C', 'D', 'E']);
    expect(isDict(value) && isArray(value.get('B')) && serialise(value.get('B') ?? null, () => 0)).toBe(
      '[(%not a comment) ]',
    );
  });

  test.each(['<< /A', '[1 2', '(never', '<41', '<< 1 2 >>', ']', 'endobj', `${'['.repeat(400)}`])(
    'what is broken is refused with a sentence: %s',
    (written) => {
      expect(() => parse(written)).toThrow(/^The kept pages of "a paper" can't be read: /);
    },
  );

  test('a piece that is too short is noticed, wherever it is cut', () => {
    const whole = Buffer.from('<< /Name (text (in) it) /Kids [12 0 R 13 0 R <abcd>] /N 12.5 /T true >>', 'latin1');
    for (let end = 0; end < whole.length; end += 1) {
      const parser = new ObjectParser(whole.subarray(0, end), 0, 'a paper');
      try {
        parser.value();
      } catch {
        // Whether it is refused or half read: what counts is that the caller is told to come back with more.
      }
      expect(parser.ranOut).toBe(true);
    }
  });
});

describe('writing', () => {
  test('whatever was written is read again as the same', () => {
    const leaf: fc.Arbitrary<PdfValue> = fc.oneof(
      fc.constant(null),
      fc.boolean(),
      fc.integer(),
      fc.double({ min: -1e6, max: 1e6, noNaN: true }).map((n) => Number(n.toFixed(6))),
      fc.string({ unit: 'binary-ascii' }).map((text) => new PdfName(text.replaceAll('\0', 'x'))),
      fc.string({ unit: 'grapheme' }).map(textString),
      fc.nat(99_999).map((num) => new PdfRef(num + 1, 0)),
    );
    const { value } = fc.letrec<{ value: PdfValue }>((tie) => ({
      value: fc.oneof(
        { maxDepth: 4 },
        leaf,
        fc.array(tie('value'), { maxLength: 5 }),
        fc
          .dictionary(fc.stringMatching(/^[A-Za-z#() ]{1,8}$/), tie('value'), { maxKeys: 5 })
          .map((entries) => new Map(Object.entries(entries))),
      ),
    }));
    fc.assert(
      fc.property(value, (made) => {
        const text = serialise(made, (ref) => ref.num);
        expect(serialise(parse(text), (ref) => ref.num)).toBe(text);
      }),
      { numRuns: 300 },
    );
  });

  test('numbers never get an exponent', () => {
    for (const number of [1e-7, 1.5e-10, 1e21, -2.5e-9, 123456789012]) {
      expect(numberText(number)).toMatch(/^-?\d+(\.\d+)?$/);
      expect(Number(numberText(number))).toBeCloseTo(number, 9);
    }
  });

  test('titles in any script come back as they were, composed', () => {
    for (const title of ['Septic permit (rev. 2) \\ A', 'Giấy phép xây dựng', 'مخطط', '敷地図 🏠', 'e\u0301tude']) {
      expect(textOf(textString(title))).toBe(title.normalize('NFC'));
    }
    expect(textOf(parse('<EFBBBFC3A9>'))).toBe('é');
  });
});
