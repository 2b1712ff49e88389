import fontkit from '@cantoo/fontkit';

/** Ligatures and contextual forms stay off: the measured width of a line is the sum of its letters. */
export const features = { liga: false, clig: false, calt: false, dlig: false, kern: false };

/**
 * Letters that stand for themselves: with the features above no glyph of theirs depends on its neighbours, so the
 * font's tables of rules needn't be read. Any other text, marks above all, is shaped as a whole.
 */
const plain =
  /^[\u0020-\u007e\u00a0-\u00ac\u00ae-\u0148\u014a-\u017f\u2013\u2014\u2018\u2019\u201c\u201d\u2022\u2026]*$/;

/** The font engine for writing sheets: plain text is looked up letter by letter, other text shaped. */
export const sheetEngine = {
  create(bytes: Uint8Array) {
    const font = fontkit.create(bytes);
    if (!('glyphForCodePoint' in font)) throw new Error('A font file holds no single face.');
    const shape = font.layout.bind(font);
    font.layout = (text: string, wanted) => {
      if (!plain.test(text)) return shape(text, wanted);
      const glyphs = font.glyphsForString(text);
      const advanceWidth = glyphs.reduce((sum, glyph) => sum + glyph.advanceWidth, 0);
      const rest = { script: null, language: null, direction: 'ltr', features: {}, bbox: font.bbox } as const;
      return { ...rest, glyphs, positions: null, advanceWidth, advanceHeight: 0 };
    };
    return font;
  },
};
