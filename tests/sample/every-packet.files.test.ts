import { readFileSync } from 'node:fs';
import { PDFiumLibrary } from '@hyzyla/pdfium';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import type { AssembleAnswer, SampleName } from '../../core/desk/door.ts';
import { scratchFolder, toldState } from './told-states.ts';

const scratch = scratchFolder();
let library: PDFiumLibrary;

beforeAll(async () => {
  library = await PDFiumLibrary.init();
});

afterAll(() => {
  library.destroy();
  scratch[Symbol.dispose]();
});

interface Made {
  readonly errand: string;
  readonly recipient: string;
  readonly answer: AssembleAnswer;
  readonly pages: readonly number[];
  /** The words on the first sheet of the packet, run together. */
  readonly first: string;
}

/** A file as another reader opens it: its pages, and the words on the first. */
async function opened(path: string): Promise<{ readonly pages: number; readonly first: string }> {
  const doc = await library.loadDocument(new Uint8Array(readFileSync(path)));
  try {
    return { pages: doc.getPageCount(), first: doc.getPage(0).getText().replace(/\s+/g, ' ') };
  } finally {
    doc.destroy();
  }
}

/**
 * Every errand of the way that is one for this lot, its packet assembled on the day the state stands at; what is settled
 * stands open in an earlier state and is left to that, save in the last.
 */
async function everyPacket(name: SampleName): Promise<readonly Made[]> {
  const { path, day } = await toldState(name, scratch.folder);
  await using desk = openDesk({ program: 'every packet', today: () => day });
  const { lot } = await desk.ask('open-lot', { folder: desk.tickets.offer(path) });
  const { stops } = await desk.ask('way', {}, { lot });
  const made: Made[] = [];
  for (const { errand, subject, state, office } of stops) {
    if (state === "doesn't apply" || (state === 'settled' && name !== 'final')) continue;
    const answer = await desk.ask('assemble', { errand, subject }, { lot });
    const files = [];
    for (const { ticket, name: called } of answer.files) {
      if (called.endsWith('.pdf')) files.push(await opened(desk.tickets.look(ticket).path));
    }
    const pages = files.map((file) => file.pages);
    made.push({ errand, recipient: office, answer, pages, first: files[0]?.first ?? '' });
  }
  return made;
}

describe('every packet of the way is assembled and opens, page for page', () => {
  // Which errands apply follows from the practice and the answers; the ones named mark each state.
  it.each([
    ['first-month', ['soil-evaluate', 'septic-apply', 'plans-order', 'elevation-finish', 'gas-test']],
    ['permit', ['permit-apply', 'permit-pick-up', 'driveway-apply']],
    ['framing', ['framing-inspect', 'draw-ask', 'septic-apply', 'permit-extend']],
    ['final', ['occupancy-temporary', 'occupancy-walk', 'insurance-convert', 'loan-convert']],
  ] as const)('in the state %s', async (name, among) => {
    const made = await everyPacket(name);
    expect(made.map(({ errand }) => errand)).toEqual(expect.arrayContaining([...among]));
    for (const { errand, recipient, answer, pages, first } of made) {
      const told = answer.files.filter((file) => file.name.endsWith('.pdf')).map((file) => file.pages);
      // A sealed file travels untouched: its pages are its own affair and are told as none.
      expect(
        pages.filter((_, n) => told[n] !== 0),
        errand,
      ).toEqual(told.filter((count) => count !== 0));
      expect(
        answer.files.filter(({ sort }) => sort === 'errand sheet'),
        errand,
      ).toHaveLength(1);
      const missing = answer.tabs.some(({ place }) => place === 'missing');
      expect(answer.draft, errand).toBe(missing || answer.wouldBeRefused);
      if (!answer.draft && answer.files[0]?.sort === 'packet') expect(first, errand).toContain(recipient);
    }
  });
});
