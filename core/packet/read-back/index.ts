import { pdfium } from '../../reader/pdfium-module.ts';

export { type ReadBackReport, readBack, readBackUnnamed } from './read-back.ts';

/** Starts the independent reader while something else is done; reading back starts it itself otherwise. */
export function warmReadBack(): void {
  // A reader that can't start is heard by the read back, which needs it.
  pdfium().catch(() => undefined);
}
