import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createWorker, OEM, PSM, type Worker } from 'tesseract.js';
import type { GreyPicture } from './page-picture.ts';

/** A word in a picture: pixels from the upper left. */
export interface SeenWord {
  readonly text: string;
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  /** 0 to 1: the least sure of its letters counts. */
  readonly certainty: number;
}

/** The reader takes portable grey maps as they are: no picture is encoded or decoded on the way. */
function greyMap({ width, height, pixels }: GreyPicture): Buffer {
  return Buffer.concat([Buffer.from(`P5\n${width} ${height}\n255\n`), pixels]);
}

/** `page`: find the layout. `rows`: one block of rows, each word for itself. `codes`: the same, capitals and figures alone. */
export type ReadingWay = 'page' | 'rows' | 'codes';

const ways = {
  page: { tessedit_pageseg_mode: PSM.AUTO, tessedit_char_whitelist: '' },
  rows: { tessedit_pageseg_mode: PSM.SINGLE_BLOCK, tessedit_char_whitelist: '' },
  codes: {
    tessedit_pageseg_mode: PSM.SINGLE_BLOCK,
    tessedit_char_whitelist: 'ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-/.',
  },
} as const;

let shared: Promise<LetterReader> | undefined;

/** One reader for the life of a process that reads many files: it takes a third of a second to start. */
export function sharedReader(): Promise<LetterReader> {
  shared ??= LetterReader.open();
  return shared;
}

/**
 * Reads letters in pictures: Tesseract compiled to WebAssembly with its English data from the registry package, so
 * that nothing is ever fetched. Its thread ends with `close`, or with the process.
 */
export class LetterReader {
  readonly #worker: Worker;
  #way: ReadingWay = 'page';

  private constructor(worker: Worker) {
    this.#worker = worker;
  }

  static async open(): Promise<LetterReader> {
    const data = dirname(fileURLToPath(import.meta.resolve('@tesseract.js-data/eng/package.json')));
    const worker = await createWorker('eng', OEM.LSTM_ONLY, {
      langPath: join(data, '4.0.0_best_int'),
      cacheMethod: 'none',
      gzip: true,
      errorHandler: () => {}, // the promise of the call that failed is rejected as well
    });
    return new LetterReader(worker);
  }

  async read(picture: GreyPicture, dpi: number, way: ReadingWay = 'page'): Promise<readonly SeenWord[]> {
    if (way !== this.#way) {
      await this.#worker.setParameters(ways[way]);
      this.#way = way;
    }
    await this.#worker.setParameters({ user_defined_dpi: String(Math.round(dpi)) });
    const { data } = await this.#worker.recognize(greyMap(picture), {}, { blocks: true, text: false });
    const lines = (data.blocks ?? []).flatMap((block) => block.paragraphs).flatMap((paragraph) => paragraph.lines);
    return lines
      .flatMap((line) => line.words)
      .filter((word) => word.text.trim() !== '')
      .map((word) => ({
        text: word.text.normalize('NFC'),
        left: word.bbox.x0,
        top: word.bbox.y0,
        right: word.bbox.x1,
        bottom: word.bbox.y1,
        certainty: Math.min(word.confidence, ...word.symbols.map((symbol) => symbol.confidence)) / 100,
      }));
  }

  async close(): Promise<void> {
    await this.#worker.terminate();
  }
}
