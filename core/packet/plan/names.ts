const letters: Readonly<Record<string, string>> = {
  đ: 'd',
  Đ: 'D',
  ł: 'l',
  Ł: 'L',
  ø: 'o',
  Ø: 'O',
  æ: 'ae',
  Æ: 'AE',
  œ: 'oe',
  Œ: 'OE',
  ß: 'ss',
  þ: 'th',
  Þ: 'Th',
  ð: 'd',
  Ð: 'D',
  ı: 'i',
};

/** Latin letters without their marks; what is no ASCII letter or digit becomes `joint`. */
export function asciiName(text: string, joint: '-' | '_' = '-'): string {
  return text
    .replace(/[^\x20-\x7e]/gu, (character) => letters[character] ?? character)
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/['"]/g, '')
    .replace(/[^A-Za-z0-9]+/g, joint)
    .replace(/^[-_]+|[-_]+$/g, '');
}

/** The packet's short name: stands in every stamp and file name. Upper case ASCII, at most 24 characters. */
export function codeOf(text: string): string {
  const code = asciiName(text).toUpperCase();
  if (code === '') return 'PACKET';
  if (code.length <= 24) return code;
  const cut = code.slice(0, 24);
  return cut.replace(/-[^-]*$/, '') || cut;
}
