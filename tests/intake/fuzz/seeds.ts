import { drawnL, phoneJpeg } from '../make-pictures.ts';
import { contents, pictures } from '../troubles/drawn.ts';
import { geometry } from '../troubles/geometry.ts';
import { locks } from '../troubles/locks.ts';
import { annotations, forms, layers } from '../troubles/looks.ts';
import { bodies, tables, trees } from '../troubles/structure.ts';

export interface Seed {
  readonly name: string;
  readonly bytes: Buffer;
}

/** The files that are changed: every generated trouble but the longest, and pictures of every sort that cameras and scanners write. */
export async function fuzzSeeds(): Promise<readonly Seed[]> {
  const troubles = [
    ...tables,
    ...bodies,
    ...trees,
    ...geometry,
    ...locks,
    ...annotations,
    ...forms,
    ...layers,
    ...pictures,
    ...contents,
  ];
  const papers: Seed[] = [];
  for (const { what, make } of troubles) {
    const bytes = Buffer.from(await make());
    if (bytes.length > 0 && bytes.length < 60_000) papers.push({ name: `${what}.pdf`, bytes });
  }
  const small = () => drawnL(120, 80);
  const photos: readonly Seed[] = [
    { name: 'photo.jpg', bytes: await phoneJpeg(6) },
    { name: 'small.jpg', bytes: await small().jpeg({ progressive: true }).toBuffer() },
    { name: 'press.jpg', bytes: await small().toColourspace('cmyk').jpeg().toBuffer() },
    { name: 'small.png', bytes: await small().png().toBuffer() },
    { name: 'palette.png', bytes: await small().png({ palette: true }).toBuffer() },
    { name: 'scan.tif', bytes: await small().tiff({ compression: 'lzw' }).toBuffer() },
    { name: 'web.webp', bytes: await small().webp().toBuffer() },
  ];
  // As many tries for pictures as a fifth of all.
  const again = Math.max(1, Math.round(papers.length / 4 / photos.length));
  return [...papers, ...Array.from({ length: again }, () => photos).flat()];
}
