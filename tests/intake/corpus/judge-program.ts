/** A process of its own that looks at files for the corpus run; whoever started it ends it when it takes too long. */
import { readFileSync, rmSync } from 'node:fs';
import { differenceElsewhere, differenceOfPicture } from '../../../core/intake/judge.ts';
import { aloneInPacket } from '../../../core/intake/ladder/linked-look.ts';
import { compareTwo } from '../../../core/intake/ladder/look-again.ts';
import { matchPages } from '../../../core/intake/ladder/match-pages.ts';
import { fileSource } from '../../../core/intake/pdfium/byte-source.ts';
import { openDocument } from '../../../core/intake/pdfium/open-document.ts';
import { PageReader } from '../../../core/intake/pdfium/page-reader.ts';
import { readPage } from '../../../core/intake/pdfium/read-page.ts';
import { linkPacket } from '../../../core/packet/link/index.ts';
import type { PageFacts } from '../../../core/vocabulary/lot.ts';
import type { JudgeAnswer, JudgeOrder, Opens } from './corpus-model.ts';

async function opens(path: string): Promise<Opens> {
  const outcome = await openDocument(fileSource(path));
  if (!outcome.ok) return outcome.why === 'password' ? 'asks for a password' : 'does not open';
  const { document } = outcome;
  try {
    const most = Math.min(document.pageCount, 20);
    for (let index = 0; index < most; index += 1) {
      if (readPage(document, index) !== undefined) return 'opens';
    }
    return 'has no pages';
  } finally {
    document.close();
  }
}

type SameLook = Extract<JudgeOrder, { readonly ask: 'same look' }>;

async function differencesOf(original: PageReader, linked: PageReader, order: SameLook): Promise<readonly string[]> {
  const matched = matchPages(original, linked.pageCount);
  if (matched === undefined) return [`${linked.pageCount} pages instead of ${original.pageCount}`];
  const found: string[] = [];
  for (const [index, origin] of matched.origins.slice(0, order.mostPages).entries()) {
    if (origin === undefined || !original.shows(origin)) continue;
    const looked = await compareTwo({
      one: { reader: original, index: origin },
      other: { reader: linked, index },
      bytes: 1 << 20,
      differs: order.asPictures ? differenceOfPicture : differenceElsewhere,
    });
    if (!looked.ok) found.push(`page ${index + 1}: ${looked.why}`);
  }
  return found;
}

async function sameLook(order: SameLook): Promise<readonly string[]> {
  const facts: readonly PageFacts[] = JSON.parse(readFileSync(order.facts, 'utf8'));
  try {
    await linkPacket(aloneInPacket(order.kept, 'paper', facts), order.packet);
    const original = await PageReader.open(order.original);
    const linked = await PageReader.open(order.packet);
    try {
      if (original === undefined || linked === undefined) return ['the packet does not open'];
      return await differencesOf(original, linked, order);
    } finally {
      original?.close();
      linked?.close();
    }
  } finally {
    rmSync(order.packet, { force: true });
  }
}

async function answer(order: JudgeOrder): Promise<JudgeAnswer> {
  try {
    return order.ask === 'opens' ? { opens: await opens(order.path) } : { differences: await sameLook(order) };
  } catch (problem) {
    return order.ask === 'opens' ? { opens: 'breaks the reader' } : { differences: [String(problem)] };
  }
}

process.on('message', (order: JudgeOrder) => {
  answer(order).then(
    (found) => process.send?.(found),
    () => process.exit(1),
  );
});
process.on('disconnect', () => process.exit(0));
