/** What a file really is, told from its first bytes; names lie. */
export const fileSorts = [
  'empty',
  'pdf',
  'jpeg',
  'png',
  'gif',
  'webp',
  'tiff',
  'heic',
  'bmp',
  'zip',
  'office',
  'rtf',
  'web page',
  'e-mail',
  'text',
  'unknown',
] as const;

export type FileSort = (typeof fileSorts)[number];

/** How many leading bytes {@link sniff} wants to see (PDF readers look for the header in the first 1024). */
export const sniffLength = 4096;

const heifBrands = new Set(['heic', 'heix', 'hevc', 'hevx', 'heim', 'heis', 'mif1', 'msf1', 'avif']);

function latin1(head: Uint8Array, from: number, to: number): string {
  return Buffer.from(head.buffer, head.byteOffset, head.byteLength).toString('latin1', from, to);
}

function looksLikeText(head: Uint8Array): boolean {
  return head.every((byte) => byte >= 0x20 || byte === 0x09 || byte === 0x0a || byte === 0x0d || byte === 0x0c);
}

/** RFC 5322: fields from the first line on, those that every e-mail has among them. */
function looksLikeMail(start: string): boolean {
  if (/^(from |return-path:|received:|delivered-to:|mime-version:|message-id:|subject:|date:)/.test(start)) return true;
  const fields = start.slice(0, 4096).split(/\r?\n\r?\n/)[0] ?? '';
  const lines = fields.split(/\r?\n/).slice(0, -1);
  const told = (field: string) => lines.some((line) => line.startsWith(`${field}:`));
  return (
    lines.length >= 3 &&
    lines.every((line) => /^([!-9;-~]+:|[ \t])/.test(line)) &&
    told('from') &&
    (told('date') || told('subject') || told('received'))
  );
}

function sniffText(head: Uint8Array): FileSort {
  const start = latin1(head, 0, head.length)
    .replace(/^\u00ef\u00bb\u00bf/, '')
    .trimStart()
    .toLowerCase();
  if (
    /^(<!doctype html|<html|<head|<body|<!--)/.test(start) ||
    (start.startsWith('<?xml') && start.includes('<html'))
  ) {
    return 'web page';
  }
  if (looksLikeMail(start)) return 'e-mail';
  if (start.startsWith('{\\rtf')) return 'rtf';
  return looksLikeText(head) ? 'text' : 'unknown';
}

/** ISO 32000-1 implementation note 13: the header may stand anywhere in the first 1024 bytes. */
function hasPdfHeader(head: Uint8Array): boolean {
  return latin1(head, 0, 1024 + 8).includes('%PDF-');
}

/**
 * Tells a file's sort from its first {@link sniffLength} bytes.
 * @returns 'empty' for no bytes, 'unknown' where nothing fits.
 */
export function sniff(head: Uint8Array): FileSort {
  if (head.length === 0) return 'empty';
  const four = latin1(head, 0, 4);
  if (four.startsWith('\u00ff\u00d8\u00ff')) return 'jpeg';
  if (latin1(head, 0, 8) === '\u0089PNG\r\n\u001a\n') return 'png';
  if (four === 'GIF8') return 'gif';
  if (four === 'RIFF' && latin1(head, 8, 12) === 'WEBP') return 'webp';
  if (['II*\0', 'MM\0*', 'II+\0', 'MM\0+'].includes(four)) return 'tiff';
  if (latin1(head, 4, 8) === 'ftyp' && heifBrands.has(latin1(head, 8, 12))) return 'heic';
  if (four === 'PK\u0003\u0004')
    return /word\/|xl\/|ppt\/|\[Content_Types\]/.test(latin1(head, 0, 4096)) ? 'office' : 'zip';
  if (four === '\u00d0\u00cf\u0011\u00e0') return 'office';
  if (hasPdfHeader(head)) return 'pdf';
  if (four.startsWith('BM') && !looksLikeText(head)) return 'bmp';
  return sniffText(head);
}
