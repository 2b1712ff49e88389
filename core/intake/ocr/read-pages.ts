import { LotfileError } from '../../vocabulary/errors.ts';
import { fileSource } from '../pdfium/byte-source.ts';
import { openDocument, type ReaderDocument } from '../pdfium/open-document.ts';
import { linesOf, type PageText, type TextWord, type Turn } from '../reading/page-text.ts';
import { codeLook } from './code-look.ts';
import { withoutLeaders } from './leaders.ts';
import { LetterReader, type SeenWord } from './letter-reader.ts';
import { drawGrey, type GreyPicture } from './page-picture.ts';
import { type PageLayer, readLayer } from './page-words.ts';
import { withoutRuledLines } from './ruled-lines.ts';
import { secondLook } from './second-look.ts';
import { inkFacts, turned } from './straighten.ts';

export interface ReadControl {
  /** Called before each page that is looked at, and once at the end. */
  readonly onPage?: (done: number, of: number) => void | Promise<void>;
  readonly signal?: AbortSignal | undefined;
  /** A reader to use again, asked for when the first scan comes; by default one is opened for this file alone. */
  readonly reader?: (() => Promise<LetterReader>) | undefined;
}

/** Where letters are looked for: between what a fax and what a good scanner gives. More only takes longer. */
const dpiRange = { least: 200, most: 300 } as const;

/** A page with less ink than this is blank: a few specks. */
const leastInk = 0.00015;

/** Below this the letters were guessed: the sheet may stand on its head. */
const wellRead = 0.62;

/** A layer that says little beside a picture, or says it in signs of no alphabet, is no text layer. */
function layerCounts({ words, scan }: PageLayer): boolean {
  const text = words.map((word) => word.text).join('');
  if (text.length < 20 || scan) return false;
  const strange =
    text.replace(/[\p{L}\p{N}\p{P}\p{S}\p{M}]/gu, '').length + (text.match(/[\ufffd\ue000-\uf8ff]/gu)?.length ?? 0);
  return strange < 0.1 * text.length;
}

interface Seen {
  readonly words: readonly SeenWord[];
  readonly picture: GreyPicture;
  readonly turn: Turn;
  readonly lean: number;
}

/** How sure the letters are, a long word counting for more. */
function certaintyOf(words: readonly SeenWord[]): number {
  const letters = words.reduce((sum, word) => sum + word.text.length, 0);
  return letters === 0 ? 0 : words.reduce((sum, word) => sum + word.text.length * word.certainty, 0) / letters;
}

async function look(
  reader: LetterReader,
  picture: GreyPicture,
  at: { readonly dpi: number; readonly turn: Turn },
): Promise<Seen> {
  const upright = await turned(picture, at.turn, 0);
  const { skew } = inkFacts(upright);
  const lean = Math.abs(skew) < 0.25 ? 0 : -skew;
  const level = withoutLeaders(withoutRuledLines(await turned(upright, 0, lean), at.dpi), at.dpi);
  return { words: await reader.read(level, at.dpi), picture: level, turn: at.turn, lean };
}

/** Looks at the page as it lies; where hardly anything can be read, turned the other ways too. */
async function lookAllWays(reader: LetterReader, picture: GreyPicture, dpi: number): Promise<Seen> {
  const { sideways } = inkFacts(picture);
  const first = await look(reader, picture, { dpi, turn: sideways ? 90 : 0 });
  if (certaintyOf(first.words) >= wellRead) return first;
  const others: readonly Turn[] = sideways ? [270, 0] : [180, 90, 270];
  let best = first;
  for (const turn of others) {
    const seen = await look(reader, picture, { dpi, turn });
    if (certaintyOf(seen.words) > certaintyOf(best.words)) best = seen;
    if (certaintyOf(best.words) >= wellRead) break;
  }
  return best;
}

/** From pixels of the level picture to points of the upright frame, whose middle is the page's. */
function toWord(
  seen: SeenWord,
  more: Pick<TextWord, 'again' | 'code'>,
  frame: { readonly scale: number; readonly dx: number; readonly dy: number; readonly high: number },
): TextWord {
  const x = (seen.left - frame.dx) / frame.scale;
  const top = (seen.top - frame.dy) / frame.scale;
  const width = (seen.right - seen.left) / frame.scale;
  const height = (seen.bottom - seen.top) / frame.scale;
  return {
    text: seen.text,
    box: { x, y: frame.high - top - height, width, height },
    certainty: seen.certainty,
    ...more,
  };
}

async function readPicture(
  document: ReaderDocument,
  layer: PageLayer,
  page: number,
  reader: () => Promise<LetterReader>,
): Promise<PageText> {
  const { width, height } = layer;
  const empty: PageText = { page, width, height, source: 'picture', turn: 0, lean: 0, lines: [] };
  const dpi = Math.min(dpiRange.most, Math.max(dpiRange.least, layer.dpi ?? dpiRange.least));
  const picture = drawGrey(document, page, dpi / 72);
  if (picture === undefined) return empty;
  if (inkFacts(picture).share < leastInk) return { ...empty, blank: true };
  const letters = await reader();
  const scale = picture.width / width;
  const seen = await lookAllWays(letters, picture, scale * 72);
  const again = await secondLook(letters, seen.picture, seen.words);
  const [wide, high] = seen.turn % 180 === 0 ? [width, height] : [height, width];
  const frame = {
    scale,
    dx: (seen.picture.width - wide * scale) / 2,
    dy: (seen.picture.height - high * scale) / 2,
    high,
  };
  const codes = await codeLook(letters, seen.picture, seen.words);
  const words = seen.words.map((word, index) =>
    toWord(word, { again: again.get(index), code: codes.get(index) }, frame),
  );
  return { ...empty, turn: seen.turn, lean: seen.lean, lines: linesOf(words) };
}

/** A reader that starts when it is first asked for. */
class LateReader {
  #own: Promise<LetterReader> | undefined;
  readonly #given: ReadControl['reader'];

  constructor(given: ReadControl['reader']) {
    this.#given = given;
  }

  readonly get = async (): Promise<LetterReader> => {
    if (this.#given !== undefined) return this.#given();
    this.#own ??= LetterReader.open();
    return this.#own;
  };

  async close(): Promise<void> {
    await (await this.#own)?.close();
  }
}

function unreadable(name: string): LotfileError {
  return new LotfileError('file refused', `"${name}" can't be opened for reading.`, {
    about: name,
    next: 'Open it in another program, print it to PDF, and drop in the print.',
  });
}

/**
 * Reads every page of a PDF: its own text where there is some, else what the picture of the page shows. A scan takes
 * about a second a page.
 * @throws LotfileError `file refused`; `stopped` when the signal fires (between pages; a worker is simply killed).
 */
export async function readPages(path: string, name: string, control: ReadControl = {}): Promise<readonly PageText[]> {
  const outcome = await openDocument(fileSource(path));
  if (!outcome.ok) throw unreadable(name);
  const { document } = outcome;
  const reader = new LateReader(control.reader);
  const pages: PageText[] = [];
  try {
    for (let page = 0; page < document.pageCount; page += 1) {
      if (control.signal?.aborted === true) {
        throw new LotfileError('stopped', `Reading "${name}" was stopped.`, { about: name });
      }
      await control.onPage?.(page, document.pageCount);
      const layer = readLayer(document, page);
      if (layer === undefined) throw unreadable(name);
      const { width, height, words } = layer;
      const own: PageText = { page, width, height, source: 'text layer', turn: 0, lean: 0, lines: linesOf(words) };
      pages.push(layerCounts(layer) ? own : await readPicture(document, layer, page, reader.get));
    }
    await control.onPage?.(document.pageCount, document.pageCount);
    return pages;
  } finally {
    document.close();
    await reader.close();
  }
}
