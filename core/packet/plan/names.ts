import type { Delivery } from '../../vocabulary/practice.ts';

const letters: Readonly<Record<string, string>> = {
  đ: 'd',
  Đ: 'D',
  ł: 'l',
  Ł: 'L',
  ø: 'o',
  Ø: 'O',
  æ: 'ae',
  Æ: 'AE',
  œ: 'oe',
  Œ: 'OE',
  ß: 'ss',
  þ: 'th',
  Þ: 'Th',
  ð: 'd',
  Ð: 'D',
  ı: 'i',
};

/** Latin letters without their marks; what is no ASCII letter or digit becomes `joint`. */
export function asciiName(text: string, joint: '-' | '_' = '-'): string {
  return text
    .replace(/[^\x20-\x7e]/gu, (character) => letters[character] ?? character)
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .replace(/['"’]/g, '')
    .replace(/[^A-Za-z0-9]+/g, joint)
    .replace(/^[-_]+|[-_]+$/g, '');
}

/** The packet's short name: stands in every stamp and file name. Upper case ASCII, at most 24 characters. */
export function codeOf(text: string): string {
  const code = asciiName(text).toUpperCase();
  if (code === '') return 'PACKET';
  if (code.length <= 24) return code;
  const cut = code.slice(0, 24);
  return code[24] === '-' ? cut : cut.replace(/-[^-]*$/, '') || cut;
}

export interface NameParts {
  readonly n: number;
  readonly tab: number;
  readonly paper: string;
  readonly number: string;
  readonly day: string;
  readonly lot: string;
}

/** Papers that go one by one are counted; a file beside a packet is known by its tab there. */
const defaultPattern = { 'separate files': '{n}_{paper}_{number}', 'one file': 'tab-{tab}_{paper}_{number}' } as const;
/** Where the office names no limit: fits every file system with room for a folder's path. */
const defaultLimit = 80;
/** Names that Windows keeps for itself, whatever follows the dot. */
const keptNames = /^(con|prn|aux|nul|com\d|lpt\d)$/i;

/** Hands out file names: the office's pattern, no odd characters, no inner dots, within its limit, each once. */
export class FileNames {
  readonly #pattern: string;
  readonly #limit: number;
  readonly #given = new Set<string>();

  constructor(delivery: Pick<Delivery, 'fileName' | 'fileNameLimit'> & Partial<Pick<Delivery, 'files'>>) {
    this.#pattern = delivery.fileName ?? defaultPattern[delivery.files ?? 'separate files'];
    this.#limit = delivery.fileNameLimit ?? defaultLimit;
  }

  /** A name by the office's pattern. `extension` without its dot. */
  byPattern(parts: NameParts, extension = 'pdf'): string {
    const values: Readonly<Record<string, string>> = {
      n: String(parts.n).padStart(2, '0'),
      tab: String(parts.tab).padStart(2, '0'),
      paper: parts.paper,
      number: parts.number,
      day: parts.day,
      lot: parts.lot,
    };
    const stem = this.#pattern
      .replace(/\.pdf$/i, '')
      .replace(/\{(\w+)\}/g, (_, key: string) => clean(values[key] ?? ''));
    return this.plain(stem, extension);
  }

  /** A name of our own making, cleaned in the same way; `tail` is never cut off. */
  plain(stem: string, extension = 'pdf', tail = ''): string {
    const dot = `.${asciiName(extension).toLowerCase() || 'pdf'}`;
    const room = Math.max(8, this.#limit - dot.length - tail.length);
    const base =
      clean(stem)
        .slice(0, room)
        .replace(/[-_]+$/, '') || 'paper';
    const free = keptNames.test(base) ? `${base}_` : base;
    let name = free + tail;
    for (let n = 2; this.#given.has((name + dot).toLowerCase()); n += 1) {
      const again = `-${n}`;
      name = free.slice(0, room - again.length) + again + tail;
    }
    this.#given.add((name + dot).toLowerCase());
    return name + dot;
  }
}

/** Only letters, digits, "-" and "_"; joints never doubled, none at the ends. */
function clean(text: string): string {
  return text
    .split(/([-_])/)
    .map((part) => (part === '-' || part === '_' ? part : asciiName(part)))
    .join('')
    .replace(/[-_]*_[-_]*/g, '_')
    .replace(/-+/g, '-')
    .replace(/^[-_]+|[-_]+$/g, '');
}

/** The extension of a kept file's name, without the dot; "pdf" where it has none. */
export function extensionOf(name: string): string {
  return /\.([A-Za-z0-9]{1,5})$/.exec(name)?.[1]?.toLowerCase() ?? 'pdf';
}
