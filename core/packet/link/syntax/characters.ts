/** What a byte is to the PDF lexer (ISO 32000-1, 7.2.2): 1 white space, 2 delimiter, 0 regular. */
export const characterSort: Uint8Array = (() => {
  const sort = new Uint8Array(256);
  for (const space of [0, 9, 10, 12, 13, 32]) sort[space] = 1;
  for (const delimiter of '()<>[]{}/%') sort[delimiter.charCodeAt(0)] = 2;
  return sort;
})();

/** Value of a hex digit, or -1. */
export function hexValue(byte: number): number {
  if (byte >= 48 && byte <= 57) return byte - 48;
  const lower = byte | 32;
  return lower >= 97 && lower <= 102 ? lower - 87 : -1;
}
