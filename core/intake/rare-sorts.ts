import type { LotfileError } from '../vocabulary/errors.ts';
import { otherSort } from './pictures/limits.ts';
import { refused } from './refusals.ts';

interface RareSort {
  /** The first bytes, as latin1 letters; `at` counts from the start. */
  readonly begins: string;
  readonly at?: number;
  readonly say: string;
  /** Where saving it as a usual picture is not the way. */
  readonly next?: string;
}

const unpackFirst = 'Unpack it and keep the files inside.';
const printFirst = 'Open it in the program that made it, print it to PDF, and drop in the print.';

/**
 * First bytes of sound files of sorts that no reader here takes; each format's own published description, as the
 * signature lists of archives repeat them (PRONOM, The National Archives).
 */
const rareSorts: readonly RareSort[] = [
  { begins: '\u0000\u0000\u0000\u000cjP  ', say: 'is a JPEG 2000 picture.' },
  { begins: '\u00ff\u004f\u00ff\u0051', say: 'is a JPEG 2000 picture.' },
  { begins: '\u0000\u0000\u0000\u000cJXL ', say: 'is a JPEG XL picture.' },
  { begins: '\u00ff\u000a', say: 'is a JPEG XL picture.' },
  { begins: '8BPS', say: 'is a picture in layers (PSD).' },
  { begins: 'gimp xcf', say: 'is a picture in layers (XCF).' },
  { begins: '\u0076\u002f\u0031\u0001', say: 'is a picture for films (OpenEXR).' },
  { begins: '#?RADIANCE', say: 'is a picture for films (Radiance).' },
  { begins: 'DICM', at: 128, say: 'is a medical picture (DICOM).' },
  { begins: '\u000a\u0005\u0001', say: 'is an old paint program’s picture (PCX).' },
  { begins: '\u0000\u0000\u0001\u0000', say: 'is an icon.' },
  { begins: 'ftypcrx', at: 4, say: 'is what a camera’s sensor saw, not a picture yet (RAW).' },
  { begins: 'FUJIFILMCCD-RAW', say: 'is what a camera’s sensor saw, not a picture yet (RAW).' },
  { begins: 'IIU\u0000', say: 'is what a camera’s sensor saw, not a picture yet (RAW).' },
  { begins: 'IIRO', say: 'is what a camera’s sensor saw, not a picture yet (RAW).' },
  { begins: '\u00d7\u00cd\u00c6\u009a', say: 'is a drawing for an office program (WMF).', next: printFirst },
  { begins: ' EMF', at: 40, say: 'is a drawing for an office program (EMF).', next: printFirst },
  { begins: 'AC10', say: 'is a drawing of a drafting program (DWG).', next: printFirst },
  { begins: '%!PS', say: 'is a file for a printer (PostScript).', next: printFirst },
  { begins: '\u00c5\u00d0\u00d3\u00c6', say: 'is a file for a printer (PostScript).', next: printFirst },
  { begins: 'AT&TFORM', say: 'is a scan in another form (DjVu).', next: 'Open it, print it to PDF, and drop that in.' },
  {
    begins: '\u0097JB2',
    say: 'is a fax in another form (JBIG2).',
    next: 'Open it, print it to PDF, and drop that in.',
  },
  { begins: 'Rar!', say: 'is a packed folder (RAR).', next: unpackFirst },
  { begins: '7z\u00bc\u00af\u0027\u001c', say: 'is a packed folder (7z).', next: unpackFirst },
  { begins: '\u001f\u008b', say: 'is packed (gzip).', next: unpackFirst },
  { begins: 'ftyp', at: 4, say: 'is a film or a picture that no reader here takes.' },
];

/** A file of another sort that says which it is; undefined where nothing tells. */
export function rareSort(name: string, head: Buffer): LotfileError | undefined {
  const text = head.toString('latin1', 0, 256);
  const found = rareSorts.find(({ begins, at = 0 }) => text.startsWith(begins, at));
  if (found !== undefined)
    return found.next === undefined ? otherSort(name, found.say) : refused(name, found.say, found.next);
  return /^\s*(?:<\?xml[^>]*>\s*)?(?:<!--[^>]*-->\s*)?(?:<!doctype svg[^>]*>\s*)?<svg\b/i.test(
    head.toString('latin1', 0, 2048),
  )
    ? refused(
        name,
        'is a drawing for web pages (SVG).',
        'Open it in a browser, print it to PDF, and drop in the print.',
      )
    : undefined;
}
