import { type Stats, statSync } from 'node:fs';
import { LotfileError } from '../../core/desk/door.ts';
import type { WindowDesk } from '../host/window-desk.ts';
import { mayBeShown, paperType } from './media-types.ts';
import { plainPage, type Served } from './served.ts';

interface Range {
  readonly start: number;
  /** Inclusive. */
  readonly end: number;
}

/**
 * One byte range (RFC 9110, section 14): "bytes=0-99", "bytes=100-", "bytes=-500".
 * @returns nothing where there is none to obey (several, or another unit): the whole is served then.
 */
export function readRange(header: string | undefined, size: number): Range | 'not satisfiable' | undefined {
  const parts = /^bytes=(\d*)-(\d*)$/.exec(header?.trim() ?? '');
  const [, from = '', to = ''] = parts ?? [];
  if (parts === null || (from === '' && to === '')) return undefined;
  if (from === '') {
    const last = Number(to);
    return last === 0 || size === 0 ? 'not satisfiable' : { start: Math.max(0, size - last), end: size - 1 };
  }
  const start = Number(from);
  const end = to === '' ? size - 1 : Math.min(Number(to), size - 1);
  if (to !== '' && Number(to) < start) return undefined;
  return start >= size ? 'not satisfiable' : { start, end };
}

/** RFC 6266 and 8187: a plain name for old readers, the true one beside it. */
export function disposition(name: string, how: 'inline' | 'attachment'): string {
  const plain = name.replace(/[^\x20-\x7e]|["\\%]/g, '_');
  const encoded = encodeURIComponent(name).replace(/['()*]/g, (c) => `%${c.charCodeAt(0).toString(16).toUpperCase()}`);
  return `${how}; filename="${plain}"; filename*=UTF-8''${encoded}`;
}

interface Wanted {
  readonly ticket: string;
  readonly range?: string | undefined;
  readonly save: boolean;
}

function fileBehind(path: string): Stats | undefined {
  const stats = statSync(path, { throwIfNoEntry: false });
  return stats?.isFile() === true ? stats : undefined;
}

/** The bytes behind a ticket. The type is read off the name alone and is never one that a browser would run. */
export function serveTicket(host: WindowDesk, { ticket, range, save }: Wanted): Served {
  try {
    const { path, name } = host.desk.tickets.look(ticket);
    const size = fileBehind(path)?.size;
    if (size === undefined) return plainPage(404, `"${name}" is not there any more.`, 'Load the window again.');
    const type = paperType(name);
    const headers = {
      'content-type': type,
      'content-disposition': disposition(name, save || !mayBeShown(type) ? 'attachment' : 'inline'),
      'cache-control': 'no-store',
      'accept-ranges': 'bytes',
    };
    const wanted = readRange(range, size);
    if (wanted === 'not satisfiable') {
      return { status: 416, headers: { ...headers, 'content-range': `bytes */${size}` }, body: '' };
    }
    const { start, end } = wanted ?? { start: 0, end: size - 1 };
    const length = { 'content-length': String(end - start + 1) };
    if (wanted === undefined) return { status: 200, headers: { ...headers, ...length }, body: { path, start, end } };
    const place = { 'content-range': `bytes ${start}-${end}/${size}` };
    return { status: 206, headers: { ...headers, ...length, ...place }, body: { path, start, end } };
  } catch (error) {
    const { message, next = 'Load the window again.' } = LotfileError.from(error);
    return plainPage(404, message, next);
  }
}
