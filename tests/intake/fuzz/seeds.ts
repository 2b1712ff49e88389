import { readFileSync } from 'node:fs';
import { mailOf } from '../mail/make-mail.ts';
import { messageOf } from '../mail/make-message.ts';
import { zipOf } from '../mail/make-zip.ts';
import { onePage } from '../make-pdf.ts';
import { drawnL, letterL, phoneJpeg } from '../make-pictures.ts';
import { bmpOf } from '../pictures/make-bmp.ts';
import { contents, pictures } from '../troubles/drawn.ts';
import { geometry } from '../troubles/geometry.ts';
import { locks } from '../troubles/locks.ts';
import { annotations, forms, layers } from '../troubles/looks.ts';
import { bodies, tables, trees } from '../troubles/structure.ts';

export interface Seed {
  readonly name: string;
  readonly bytes: Buffer;
}

function sample(name: string): Buffer {
  return readFileSync(new URL(`../pictures/samples/${name}`, import.meta.url));
}

/** Files that hold files: those are taken apart. */
async function holdersOf(): Promise<readonly Seed[]> {
  const [paper, photo] = [onePage(), await drawnL(60, 40).jpeg().toBuffer()];
  const attachments = [
    { filename: 'permit.pdf', content: paper },
    { filename: 'lot.jpg', content: photo },
  ];
  const mail = await mailOf({ text: 'See what is attached.', html: '<p>See <b>below</b></p>', attachments });
  const entries = [
    { name: 'Permits/permit.pdf', data: paper },
    { name: 'lot.jpg', data: photo, method: 0 },
    { name: 'mail.eml', data: mail },
  ];
  return [
    { name: 'mail.eml', bytes: mail },
    {
      name: 'mail.msg',
      bytes: Buffer.from(
        messageOf('Permit', 'See below', [
          ['permit.pdf', paper],
          ['lot.jpg', photo],
        ]),
      ),
    },
    { name: 'papers.zip', bytes: zipOf(entries) },
  ];
}

/**
 * The files that are changed: every generated trouble but the longest, pictures of every sort that cameras and scanners
 * write, and what holds files.
 */
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
    {
      name: 'fax.tif',
      bytes: await small().toColourspace('b-w').tiff({ compression: 'ccittfax4', bitdepth: 1 }).toBuffer(),
    },
    { name: 'web.webp', bytes: await small().webp().toBuffer() },
    { name: 'plan.gif', bytes: await small().gif().toBuffer() },
    { name: 'old.bmp', bytes: bmpOf(letterL(120, 80), 120, 80, false) },
    { name: 'phone.heic', bytes: sample('L.heic') },
    { name: 'shots.heic', bytes: sample('two.heic') },
    { name: 'phone.avif', bytes: sample('L.avif') },
  ];
  const holders = await holdersOf();
  // As many tries for pictures as a fifth of all.
  const again = Math.max(1, Math.round(papers.length / 4 / photos.length));
  return [...papers, ...Array.from({ length: again }, () => [...photos, ...holders]).flat()];
}
