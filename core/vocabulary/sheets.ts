/** Paper sizes by name, width x height in points, portrait. ANSI/ASME Y14.1 and the ARCH series; ISO 216. */
export const sheetSizes = {
  letter: [612, 792],
  legal: [612, 1008],
  'ansi-b': [792, 1224],
  'ansi-c': [1224, 1584],
  'ansi-d': [1584, 2448],
  'ansi-e': [2448, 3168],
  'ansi-f': [2016, 2880],
  'arch-a': [648, 864],
  'arch-b': [864, 1296],
  'arch-c': [1296, 1728],
  'arch-d': [1728, 2592],
  'arch-e1': [2160, 3024],
  'arch-e': [2592, 3456],
  a4: [595.28, 841.89],
  a3: [841.89, 1190.55],
  a2: [1190.55, 1683.78],
  a1: [1683.78, 2383.94],
  a0: [2383.94, 3370.39],
} as const satisfies Record<string, readonly [number, number]>;

export type SheetName = keyof typeof sheetSizes;

export function isSheetName(text: string): text is SheetName {
  return Object.hasOwn(sheetSizes, text);
}

export const sheetNames: readonly SheetName[] = Object.keys(sheetSizes).filter(isSheetName);

/**
 * Names a page by its size as a person sees it (rotation and UserUnit applied), in either orientation.
 * @param tolerance in points; scanners and plotters are never exact.
 */
export function sheetNameOf(width: number, height: number, tolerance = 3): SheetName | undefined {
  const [short, long] = width < height ? [width, height] : [height, width];
  return sheetNames.find((name) => {
    const [w, h] = sheetSizes[name];
    return Math.abs(w - short) <= tolerance && Math.abs(h - long) <= tolerance;
  });
}

/** What a home or office printer can't print: anything beyond legal. */
export function needsPrintShop(width: number, height: number): boolean {
  return Math.min(width, height) > 620 || Math.max(width, height) > 1020;
}

/** "ARCH D", "letter", "another size" where the sheet has no name: as people say it. */
export function sheetInWords(name: string): string {
  if (name === 'other') return 'another size';
  return name === 'letter' || name === 'legal' ? name : name.replace('-', ' ').toUpperCase();
}
