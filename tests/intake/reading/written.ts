import type { PageText, TextWord } from '../../../core/intake/reading/page-text.ts';
import { readPaper } from '../../../core/intake/reading/read-paper.ts';
import type { PaperReading } from '../../../core/intake/reading/reading-model.ts';
import { readPractice } from '../../../core/practice/index.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { commonLayers } from '../../practice/common-layers.ts';

export const common = readPractice(commonLayers);
export const today: Day = '2026-07-15';

/** A letter is 6 points wide and 10 tall here; "  " goes on at the next 120 points, "# " at a line's start makes a title. */
const letter = 6;

/** How one word of a scan was seen: a second look that differs, or letters that were hardly sure. */
export interface Doubtful {
  readonly again?: string;
  readonly certainty?: number;
  /** What a look for capitals and figures alone saw. */
  readonly code?: TextWord['code'];
}

/**
 * A page written out line by line, as text layers and scans give it.
 * @param doubtful makes the page a scan whose second looks agree but for the words named here
 */
export function pageOf(lines: readonly string[], doubtful?: Readonly<Record<string, Doubtful>>): PageText {
  return {
    page: 0,
    width: 612,
    height: 792,
    source: doubtful === undefined ? 'text layer' : 'picture',
    turn: 0,
    lean: 0,
    lines: lines.flatMap((text, at) => {
      const tall = text.startsWith('# ') ? 1.6 : 1;
      let x = 60;
      const words = text
        .replace(/^# /, '')
        .split(/( {2,}| )/)
        .flatMap((part): TextWord[] => {
          if (part.trim() === '') {
            x = part.length > 1 ? 120 * Math.ceil((x + 20) / 120) : x + letter;
            return [];
          }
          const box = { x, y: 740 - at * 16, width: part.length * letter, height: 10 * tall };
          x += box.width;
          const seen = doubtful?.[part];
          const again = doubtful === undefined ? undefined : (seen?.again ?? part);
          return [
            {
              text: part,
              box,
              certainty: seen?.certainty ?? (doubtful === undefined ? 1 : 0.9),
              again,
              code: seen?.code,
            },
          ];
        });
      return words.length === 0 ? [] : [{ words }];
    }),
  };
}

/** What stands under it all, so that a title is larger than most. */
const body = ['', 'Keep this sheet with the others.', '', 'Ask at the desk.', '', 'Bring a pencil.', '', 'Thank you.'];

export function readingOf(
  lines: readonly string[],
  doubtful?: Readonly<Record<string, Doubtful>>,
  day: Day = today,
): PaperReading {
  return readPaper([pageOf([...lines, ...body], doubtful)], common, { today: day });
}
