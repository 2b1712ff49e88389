import type { SeenRect } from '../../vocabulary/lot.ts';

/** Rows of values from the top; the page as seen. */
export interface Painted {
  readonly width: number;
  readonly height: number;
  readonly channels: 1 | 3;
  readonly pixels: Uint8Array;
}

/** Paints places black, a dot further out than they reach, so that no edge shines through. */
export function paintOver(
  picture: Painted,
  points: { readonly width: number; readonly height: number },
  places: readonly SeenRect[],
): void {
  const [across, down] = [picture.width / points.width, picture.height / points.height];
  for (const { x, y, width, height } of places) {
    const left = Math.max(0, Math.floor(x * across) - 1);
    const right = Math.min(picture.width, Math.ceil((x + width) * across) + 1);
    const top = Math.max(0, Math.floor((points.height - y - height) * down) - 1);
    const bottom = Math.min(picture.height, Math.ceil((points.height - y) * down) + 1);
    for (let row = top; row < bottom; row += 1) {
      const from = row * picture.width;
      picture.pixels.fill(0, (from + left) * picture.channels, (from + right) * picture.channels);
    }
  }
}

/** True where nothing but black is left well inside the places. */
export function isPainted(
  picture: Painted,
  points: { readonly width: number; readonly height: number },
  places: readonly SeenRect[],
): boolean {
  const [across, down] = [picture.width / points.width, picture.height / points.height];
  return places.every(({ x, y, width, height }) => {
    const [left, right] = [Math.ceil(x * across), Math.floor((x + width) * across)];
    const [top, bottom] = [Math.ceil((points.height - y - height) * down), Math.floor((points.height - y) * down)];
    for (let row = Math.max(0, top); row < Math.min(picture.height, bottom); row += 1) {
      for (let column = Math.max(0, left); column < Math.min(picture.width, right); column += 1) {
        if ((picture.pixels[(row * picture.width + column) * picture.channels] ?? 255) > 60) return false;
      }
    }
    return true;
  });
}
