export const zooms = ['weeks', 'months', 'whole way'] as const;
export type Zoom = (typeof zooms)[number];

export function isZoom(text: string): text is Zoom {
  return zooms.some((zoom) => zoom === text);
}

/** One step nearer (+1) or farther (-1); stays at the ends. */
export function stepped(zoom: Zoom, step: 1 | -1): Zoom {
  return zooms[zooms.indexOf(zoom) - step] ?? zoom;
}

/** Width of a day, in sixteenths of the root letter size; the whole way is fitted to what room there is. */
export function dayWidth(zoom: Zoom, fit: number): number {
  switch (zoom) {
    case 'weeks':
      return Math.max(6.6, fit);
    case 'months':
      return Math.max(3.4, fit);
    case 'whole way':
      return fit;
  }
}
