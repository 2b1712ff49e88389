import * as z from 'zod';
import { LotfileError } from '../../vocabulary/errors.ts';

/** One file of a bundle, as it must be. */
export interface BundledFile {
  /** With "/", from the lot folder. */
  readonly path: string;
  readonly bytes: number;
  readonly sha256: string;
}

/** What a bundle says of itself; it stands last in the file, under `manifestName`. */
export interface Manifest {
  /** Known by every copy of the lot. */
  readonly lot: string;
  readonly title: string;
  /** The day it was made. */
  readonly day: string;
  /** Steps its tables went: a program that doesn't know one is too old. */
  readonly migrations: readonly string[];
  readonly files: readonly BundledFile[];
}

export const manifestName = 'manifest.json';
export const databaseName = 'lot.sqlite';
export const calendarName = 'calendar.json';
/** No lot comes near: a hundred thousand pages of text are a tenth of it. */
export const largestDatabase = 2 ** 32;
export const largestManifest = 64 * 2 ** 20;

const named = z.object({
  path: z.string().max(500),
  bytes: z.number().int().min(0).max(Number.MAX_SAFE_INTEGER),
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
});

const shape = z.object({
  format: z.literal('lot bundle'),
  version: z.number().int().min(1),
  lot: z.string().regex(/^[0-9a-f]{16}$/),
  title: z.string().max(1000),
  day: z.string().max(40),
  migrations: z.array(z.string().max(200)).max(1000),
  files: z.array(named).max(2_000_000),
});

export function manifestText(manifest: Manifest): string {
  return `${JSON.stringify({ format: 'lot bundle', version: 1, ...manifest }, null, 1)}\n`;
}

export function badBundle(say: string, about: string): LotfileError {
  return new LotfileError('file refused', `This is no whole bundle: ${say}`, {
    about,
    next: 'Make the bundle again on the other computer, and copy it whole. Nothing was changed here.',
  });
}

/** Reads a manifest, or says what is wrong with it. */
export function readManifest(text: string, about: string): Manifest {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    throw badBundle('its list of files can’t be read.', about);
  }
  const version = z.object({ format: z.literal('lot bundle'), version: z.number() }).safeParse(value);
  if (version.success && version.data.version > 1) throw newerBundle(about);
  const read = shape.safeParse(value);
  if (!read.success) throw badBundle('its list of files is not one that this program writes.', about);
  const { lot, title, day, migrations, files } = read.data;
  return { lot, title, day, migrations, files };
}

export function newerBundle(about: string): LotfileError {
  return new LotfileError('lot newer', 'This bundle was made by a newer version of the program.', {
    about,
    next: 'Open it with that version or a newer one; nothing was changed here.',
  });
}

const plainPart = /^[^\p{Cc}\\/:*?"<>|]+$/u;

/** A name that stays inside the lot folder on every system, one of ours, and nothing else. */
export function isOurPath(path: string): boolean {
  const parts = path.split('/');
  if (parts.some((part) => !plainPart.test(part) || /^\.|[. ]$/.test(part))) return false;
  const [place, ...rest] = parts;
  switch (place) {
    case databaseName:
    case calendarName:
      return rest.length === 0;
    case 'originals':
      return /^originals\/([0-9a-f]{2})\/\1[0-9a-f]{62}\.[a-z0-9]{1,8}$/.test(path);
    case 'renditions':
      return /^renditions\/([0-9a-f]{2})\/\1[0-9a-f]{62}\.pdf$/.test(path);
    case 'packets':
      return rest.length === 2;
    case 'table':
      return rest.length === 1 || (rest.length === 2 && rest[0] === 'put-aside');
    default:
      return false;
  }
}
