import fc from 'fast-check';
import { expect, test } from 'vitest';
import { foldWords, indexedWords, phraseSyntax, readQuery } from '../../core/store/search-words.ts';
import { snippetOf } from '../../core/store/snippet.ts';

test('accents, ligatures, capitals and barred letters fold to the letters a person types', () => {
  expect(foldWords('Hạnh NGUYỄN Đặng Tomás Łódź Straße Øst ﬁle')).toBe('hanh nguyen dang tomas lodz strasse ost file');
  // The same name composed and decomposed (Unicode NFC and NFD).
  expect(foldWords('Nguyễn'.normalize('NFD'))).toBe(foldWords('Nguyễn'.normalize('NFC')));
});

test('a number with separators is also indexed without them; plain hyphenated words are not', () => {
  expect(indexedWords('Parcel 041-22-0070')).toBe('parcel 041-22-0070\n041220070');
  expect(indexedWords('owner-builder')).toBe('owner-builder');
});

test('what a person types is read as words in a row, the last one a beginning', () => {
  expect(readQuery('041-22-0070').map(phraseSyntax)).toEqual(['"041 22 0070"*']);
  expect(readQuery('septic "heron lane" a').map(phraseSyntax)).toEqual(['"septic"*', '"heron lane"*', '"a"']);
  expect(readQuery('"unclosed quote').map(phraseSyntax)).toEqual(['"unclosed"*', '"quote"*']);
  expect(readQuery('AND OR NOT NEAR(x, 2) *:^ {title}').map(phraseSyntax)).toEqual([
    '"and"*',
    '"or"*',
    '"not"*',
    '"near x"',
    '"2"',
    '"title"*',
  ]);
  expect(readQuery(' -- ** "" ')).toEqual([]);
});

test('whatever is typed, the syntax handed to the index holds letters and digits only, between our own quotes', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary' }), (typed) => {
      for (const phrase of readQuery(typed)) expect(phraseSyntax(phrase)).toMatch(/^"[\p{L}\p{N} ]+"\*?$/u);
    }),
  );
});

test('a snippet shows the place and marks the words as they stand, accents and all', () => {
  const text = `${'before '.repeat(30)}permit for Hạnh Nguyễn Lindqvist, parcel 041-22-0070${' after'.repeat(60)}`;
  const { snippet, marks } = snippetOf(text, readQuery('nguyen 041220070'));
  expect(marks.map(([start, end]) => snippet.slice(start, end))).toEqual(['Nguyễn', '041-22-0070']);
  expect(snippet).toMatch(/^… .*after …$/);
  expect(snippet.length).toBeLessThan(240);
});

test('marks lie inside the snippet, in order, without overlap, for any text and question', () => {
  const word = fc.constantFrom('heron', 'Hạnh', '041-22-0070', 'a', 'lane', '—', '\n', 'ﬁle', '041');
  fc.assert(
    fc.property(fc.array(word, { maxLength: 120 }), fc.array(word, { minLength: 1, maxLength: 4 }), (text, typed) => {
      const { snippet, marks } = snippetOf(text.join(' '), readQuery(typed.join(' ')));
      let last = 0;
      for (const [start, end] of marks) {
        expect(start).toBeGreaterThanOrEqual(last);
        expect(end).toBeGreaterThan(start);
        last = end;
      }
      expect(last).toBeLessThanOrEqual(snippet.length);
    }),
  );
});
