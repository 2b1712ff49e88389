import { sheetShade } from './leaders.ts';
import type { GreyPicture } from './page-picture.ts';

/** How much darker than the sheet a ruled line is, even a faint one. */
const darker = 40;

/** Specks of light that may break a line, in pixels. */
const breaks = 2;

/** Runs of ink along one row or column, `step` pixels apart. */
function runsAlong(
  ink: Uint8Array,
  at: { readonly start: number; readonly step: number; readonly count: number; readonly least: number },
) {
  const runs: (readonly [from: number, to: number])[] = [];
  let from = -1;
  let last = -1;
  for (let place = 0; place < at.count; place += 1) {
    if (ink[at.start + place * at.step] !== 1) continue;
    if (from < 0 || place - last > breaks + 1) {
      if (from >= 0 && last - from >= at.least) runs.push([from, last]);
      from = place;
    }
    last = place;
  }
  if (from >= 0 && last - from >= at.least) runs.push([from, last]);
  return runs;
}

interface LineRun {
  readonly from: number;
  readonly to: number;
  readonly step: number;
  readonly across: number;
  readonly thick: number;
}

/** How far ink reaches to both sides of a place, no further than a line is thick. */
function reach(ink: Uint8Array, place: number, { across, thick }: LineRun): readonly [before: number, after: number] {
  let before = 0;
  let after = 0;
  while (before <= thick && ink[place - (before + 1) * across] === 1) before += 1;
  while (after <= thick && ink[place + (after + 1) * across] === 1) after += 1;
  return [before, after];
}

/** Letters whose feet touch make a run too, but stems rise from it: a line is thin nearly all along. */
const thinShare = 0.9;

/** Wipes a run that is a line; where a letter crosses it, the letter stays. */
function wipe(ink: Uint8Array, pixels: Uint8Array, run: LineRun, shade: number): void {
  const thin: (readonly [place: number, before: number, after: number])[] = [];
  let places = 0;
  for (let place = run.from; place <= run.to; place += run.step) {
    const [before, after] = reach(ink, place, run);
    places += 1;
    if (before + after + 1 <= run.thick) thin.push([place, before, after]);
  }
  if (thin.length < places * thinShare) return;
  for (const [place, before, after] of thin) {
    for (let step = -before - 1; step <= after + 1; step += 1) {
      const spot = place + step * run.across;
      if (spot >= 0 && spot < pixels.length) pixels[spot] = shade;
    }
  }
}

/**
 * Wipes ruled lines, the frames of boxes among them: a reader of letters takes a boxed form for a drawing and leaves
 * out every word in it. Works on a level picture.
 * @param dpi a line is longer than 4/5 inch across or 2/5 inch down, and thinner than 1/28 inch
 */
export function withoutRuledLines(picture: GreyPicture, dpi: number): GreyPicture {
  const { width, height } = picture;
  const shade = sheetShade(picture);
  const ink = new Uint8Array(width * height);
  for (let at = 0; at < ink.length; at += 1) ink[at] = (picture.pixels[at] ?? 255) < shade - darker ? 1 : 0;
  const thick = Math.max(3, Math.round(dpi / 28));
  const pixels = Uint8Array.from(picture.pixels);
  for (let y = 0; y < height; y += 1) {
    for (const [from, to] of runsAlong(ink, {
      start: y * width,
      step: 1,
      count: width,
      least: Math.round(dpi * 0.8),
    })) {
      wipe(ink, pixels, { from: y * width + from, to: y * width + to, step: 1, across: width, thick }, shade);
    }
  }
  for (let x = 0; x < width; x += 1) {
    for (const [from, to] of runsAlong(ink, { start: x, step: width, count: height, least: Math.round(dpi * 0.4) })) {
      wipe(ink, pixels, { from: from * width + x, to: to * width + x, step: width, across: 1, thick }, shade);
    }
  }
  return { ...picture, pixels };
}
