import type { BodyTab } from './body.ts';

/** Fonts and outline of a file, before its first sheet: 19-24 kB over 60 packets measured. */
export const fileBytes = 20_000;
/** Kept free in each volume: an alphabet more takes its fonts along, and a file too large is a trip made twice. */
const reserve = 160_000;
/** An estimate is no measurement: leave a twentieth of the office's limit free. */
const share = 0.95;

export interface Volumes {
  readonly volumes: readonly (readonly BodyTab[])[];
  /** Tabs that alone are larger than the office takes. */
  readonly tooLarge: readonly BodyTab[];
}

/** Splits at tab borders so that each volume stays under the limit; a single over-large tab stands alone. */
export function splitVolumes(tabs: readonly BodyTab[], limit: number | undefined): Volumes {
  if (limit === undefined) return { volumes: [tabs], tooLarge: [] };
  const room = limit * share - reserve;
  const volumes: BodyTab[][] = [];
  let used = Number.POSITIVE_INFINITY;
  for (const tab of tabs) {
    const last = volumes.at(-1);
    if (last === undefined || (used + tab.bytes > room && last.some((one) => one.sheets.length > 0) && tab.bytes > 0)) {
      volumes.push([tab]);
      used = tab.bytes;
    } else {
      last.push(tab);
      used += tab.bytes;
    }
  }
  return { volumes: volumes.length === 0 ? [tabs] : volumes, tooLarge: tabs.filter((tab) => tab.bytes > room) };
}
