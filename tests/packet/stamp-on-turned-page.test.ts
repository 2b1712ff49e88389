import { expect, it } from 'vitest';
import { clearStrips } from '../../core/intake/page/clear-strips.ts';
import { stampFor } from '../../core/packet/plan/stamps.ts';
import type { EditionPage, SeenRect } from '../../core/vocabulary/lot.ts';
import { evenMetrics } from './plan-fixture.ts';

const size = { width: 612, height: 792 };
const blank = { ...size, scale: 1, pixels: new Uint8Array(size.width * size.height).fill(255) };
const order = { text: 'PERMIT-APPLY · tab 1 · 2 of 7', tab: 1, tabs: 3, draft: false };

/** Where the line comes to stand on a white letter sheet that was turned so far. */
function stripOf(
  turn: EditionPage['turn'],
  strips: readonly SeenRect[] = clearStrips(blank, size),
): SeenRect | undefined {
  const facts = { page: 0, ...size, clearStrips: strips, openSaves: 0, extraRestores: 0, bytes: 100, text: '' };
  const stamp = stampFor({ rendition: 'r', facts, turn }, order, evenMetrics);
  return 'strip' in stamp ? stamp.strip : undefined;
}

// Fixed bug: on a page turned upright by hand the line stood sideways at the edge that was the foot before.
it('a page turned a quarter bears its line level at the foot it has now', () => {
  expect(stripOf(0)).toMatchObject({ width: 300, y: 18 });
  // Turned clockwise the right edge becomes the foot, the other way round the left one.
  expect(stripOf(90)).toMatchObject({ height: 300, x: 612 - 18 - 12 });
  expect(stripOf(270)).toMatchObject({ height: 300, x: 18 });
  expect(stripOf(180)).toMatchObject({ width: 300, y: 792 - 18 - 12 });
});

it('where nothing lies level the page stays bare: no line runs up a side', () => {
  const lying = clearStrips(blank, size).filter(({ width, height }) => width >= height);
  expect(stripOf(90, lying)).toBeUndefined();
  const standing = clearStrips(blank, size).filter(({ width, height }) => width < height);
  expect(stripOf(0, standing)).toBeUndefined();
  expect(stripOf(270, standing)).toMatchObject({ height: 300 });
});
