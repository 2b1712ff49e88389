import type { Sharp } from 'sharp';
import type { FileSort } from '../sniff.ts';
import type { PagePicture } from './picture-page.ts';

export const pictureSorts = ['jpeg', 'png', 'webp', 'heic', 'tiff', 'gif', 'bmp'] as const satisfies FileSort[];

/** The sorts of picture that are laid on pages. */
export type PictureSort = (typeof pictureSorts)[number];

export function isPictureSort(sort: FileSort): sort is PictureSort {
  return pictureSorts.some((one) => one === sort);
}

/** How dense the dots lie: per inch, or (`known` false) only against each other, as a fax states them. */
export interface Density {
  readonly x: number;
  readonly y: number;
  readonly known: boolean;
}

/** How a picture's dots got onto the page; names its recipe. */
export type PictureWay =
  | 'jpeg'
  | 'jpegAnew'
  | 'png'
  | 'dots'
  | 'twoTone'
  | 'photo'
  | 'secondReader'
  | 'rareSamples'
  | 'cleaned';

/** One picture of a file, ready for a page. */
export interface OpenSheet {
  readonly picture: PagePicture;
  /** EXIF 1-8 that the page has to undo; 1 where the dots are upright already. */
  readonly orientation: number;
  /** Of the dots as stored, before `orientation` is undone. */
  readonly density: Density | undefined;
  readonly camera: boolean;
  readonly way: PictureWay;
  readonly notes: readonly string[];
  /** The picture as a person sees it, as the measure for what the page shows. */
  upright(): Sharp;
}

/** A file of one or more pictures; each is decoded when its turn comes. */
export interface OpenPictures {
  readonly count: number;
  readonly notes: readonly string[];
  sheet(index: number): Promise<OpenSheet>;
}
