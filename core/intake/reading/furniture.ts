import type { PageText } from './page-text.ts';
import { type Spot, wordsAt } from './phrases.ts';

/**
 * Lines that belong to the blank form, not to what was written into it: its number, its edition, the day on which the
 * form itself runs out (as federal forms print it beside their OMB number, 5 CFR 1320.8(b)(1)).
 */
const ofTheForm = [
  /\bform\b.{0,40}\b(?:expires?|expiration|exp\.?|valid|good|void|approved|rev|revised|edition)\b/i,
  /\b(?:expires?|expiration|valid|approved)\b.{0,30}\bform\b/i,
  /\bOMB\b/,
  /\bO\.?M\.?B\.?\s+(?:no|control|approval)/i,
  /\b(?:rev(?:ised|ision|\.)?|ed(?:ition|\.))\s*:?\s*(?:date\s*:?\s*)?\(?\d{1,2}[/-]\d{2,4}/i,
  /^\s*form\s+[A-Z0-9-]{2,}/i,
];

const asides = [
  /\b(?:printed|print date|run date|page \d+ of|fax(?:ed)?)\b/i,
  /\breceived\b/i,
  /\breceipt\b/i,
  /\bcommission expires\b/i,
];

function lineText(page: PageText, line: number): string {
  return (page.lines[line]?.words ?? []).map((word) => word.text).join(' ');
}

/** Why a date on this line is not the paper's; undefined where nothing says so. */
export type NotThePapers = 'of the blank form' | 'beside the point';

export function notThePapers(spot: Spot): NotThePapers | undefined {
  const text = lineText(spot.page, spot.line);
  if (ofTheForm.some((shape) => shape.test(text))) return 'of the blank form';
  // An aside and the paper's own date can share a line: only what stands before the date counts.
  const before = (spot.page.lines[spot.line]?.words ?? [])
    .slice(Math.max(0, spot.from - 5), spot.to)
    .map((word) => word.text)
    .join(' ');
  return asides.some((shape) => shape.test(before)) ? 'beside the point' : undefined;
}

/** The words of a spot, as read. */
export function said(spot: Spot): string {
  return wordsAt(spot)
    .map((word) => word.text)
    .join(' ');
}
