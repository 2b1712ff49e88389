import { sheetShade } from './leaders.ts';
import type { GreyPicture } from './page-picture.ts';

/** How much darker than the sheet a ruled line is, even a faint one. */
const darker = 40;

/** Specks of light that may break a line, in pixels. */
const breaks = 3;

interface Lines {
  readonly ink: Uint8Array;
  readonly width: number;
  readonly height: number;
}

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

/** Wipes a run where it is as thin as a line; where a letter crosses it, the letter stays. */
function wipe(
  lines: Lines,
  pixels: Uint8Array,
  at: {
    readonly from: number;
    readonly to: number;
    readonly step: number;
    readonly across: number;
    readonly thick: number;
    readonly shade: number;
  },
): void {
  for (let place = at.from; place <= at.to; place += at.step) {
    let before = 0;
    let after = 0;
    while (before <= at.thick && lines.ink[place - (before + 1) * at.across] === 1) before += 1;
    while (after <= at.thick && lines.ink[place + (after + 1) * at.across] === 1) after += 1;
    if (before + after + 1 > at.thick) continue;
    for (let step = -before - 1; step <= after + 1; step += 1) {
      const spot = place + step * at.across;
      if (spot >= 0 && spot < pixels.length) pixels[spot] = at.shade;
    }
  }
}

/**
 * Wipes ruled lines, the frames of boxes among them: a reader of letters takes a boxed form for a drawing and leaves
 * out every word in it. Works on a level picture.
 * @param dpi a line is longer than 2/5 inch and thinner than 1/28 inch
 */
export function withoutRuledLines(picture: GreyPicture, dpi: number): GreyPicture {
  const { width, height } = picture;
  const shade = sheetShade(picture);
  const ink = new Uint8Array(width * height);
  for (let at = 0; at < ink.length; at += 1) ink[at] = (picture.pixels[at] ?? 255) < shade - darker ? 1 : 0;
  const lines: Lines = { ink, width, height };
  const least = Math.round(dpi * 0.4);
  const thick = Math.max(3, Math.round(dpi / 28));
  let pixels: Uint8Array | undefined;
  for (let y = 0; y < height; y += 1) {
    for (const [from, to] of runsAlong(ink, { start: y * width, step: 1, count: width, least })) {
      pixels ??= Uint8Array.from(picture.pixels);
      wipe(lines, pixels, { from: y * width + from, to: y * width + to, step: 1, across: width, thick, shade });
    }
  }
  for (let x = 0; x < width; x += 1) {
    for (const [from, to] of runsAlong(ink, { start: x, step: width, count: height, least: Math.round(least * 1.1) })) {
      pixels ??= Uint8Array.from(picture.pixels);
      wipe(lines, pixels, { from: from * width + x, to: to * width + x, step: width, across: 1, thick, shade });
    }
  }
  return pixels === undefined ? picture : { ...picture, pixels };
}
