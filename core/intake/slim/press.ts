import type { RegularFile } from '../regular/regular-file.ts';
import type { Value } from '../regular/values.ts';
import { openPressable, type Pressable } from './pressable.ts';

/** How far pictures are pressed. */
export interface Level {
  readonly dpi: number;
  readonly quality: number;
}

/** From hardly visible to still legible; the first that fits is used. */
export const levels: readonly Level[] = [
  { dpi: 300, quality: 80 },
  { dpi: 200, quality: 75 },
  { dpi: 200, quality: 60 },
  { dpi: 150, quality: 60 },
  { dpi: 150, quality: 45 },
  { dpi: 120, quality: 40 },
  { dpi: 100, quality: 35 },
];

/** A picture and the largest page that shows it. */
export interface Shown {
  readonly picture: Pressable;
  readonly page: { readonly width: number; readonly height: number };
}

/** At least so many dots to the inch, if the picture fills the page; a smaller one has more. */
function leastDpi({ picture, page }: Shown): number {
  const upright = Math.max(picture.width / page.width, picture.height / page.height);
  const lying = Math.max(picture.width / page.height, picture.height / page.width);
  return Math.min(upright, lying) * 72;
}

/** A picture encoded anew. */
export interface Pressed {
  readonly width: number;
  readonly height: number;
  readonly data: Buffer;
}

/** @returns undefined where that would not make it smaller, or it can't be decoded */
export async function press(file: RegularFile, shown: Shown, level: Level): Promise<Pressed | undefined> {
  const { picture } = shown;
  const scale = Math.min(1, level.dpi / leastDpi(shown));
  try {
    const opened = openPressable(file, picture);
    if (opened === undefined) return undefined;
    const width = Math.max(1, Math.round(picture.width * scale));
    const height = Math.max(1, Math.round(picture.height * scale));
    const sized = scale < 0.95 ? opened.resize(width, height, { fit: 'fill' }) : opened;
    const { data, info } = await sized
      .toColourspace(picture.components === 1 ? 'b-w' : 'srgb')
      .jpeg({ quality: level.quality, mozjpeg: true })
      .timeout({ seconds: 60 })
      .toBuffer({ resolveWithObject: true });
    const asExpected = info.channels === picture.components;
    const smaller = data.length < file.bytesOf(picture.number) * 0.95;
    return asExpected && smaller ? { width: info.width, height: info.height, data } : undefined;
  } catch {
    return undefined;
  }
}

/** The picture's dictionary once its data was encoded anew: colours and transparency as before. */
export function pressedDict(file: RegularFile, number: number, { width, height }: Pressed): Map<string, Value> {
  const dict = new Map(file.dict({ ref: number }));
  dict.delete('DecodeParms');
  return dict.set('Filter', { name: 'DCTDecode' }).set('Width', width).set('Height', height);
}
