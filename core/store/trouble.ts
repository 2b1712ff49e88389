import Database from 'better-sqlite3';
import { type ErrorCode, LotfileError } from '../vocabulary/errors.ts';

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

/** What the operating system said, in words a person can act on. */
const diskWords: Readonly<Record<string, readonly [ErrorCode, string, string]>> = {
  ENOSPC: ['disk', 'The disk is full.', 'Free some space and try again; nothing was lost.'],
  EDQUOT: ['disk', 'The disk quota is used up.', 'Free some space and try again; nothing was lost.'],
  EACCES: ['disk', 'The system does not allow it.', 'Check that you may read and write there, then try again.'],
  EPERM: ['disk', 'The system does not allow it.', 'Check that you may read and write there, then try again.'],
  EROFS: ['disk', 'The disk is read-only.', 'Move the lot folder to a disk that can be written to.'],
  ENOENT: ['not found', 'It is not there.', 'Check the name and the place, then try again.'],
  EISDIR: ['wrong use', 'It is a folder, not a file.', 'Choose a file.'],
  ENOTDIR: ['disk', 'A file stands where a folder should be.', 'Move that file away and try again.'],
  EEXIST: ['disk', 'Something of that name is already there.', 'Move it away and try again.'],
  EIO: ['disk', 'The disk reports an error.', 'Copy the lot folder to another disk while it can still be read.'],
};

/** A file error as one sentence about the thing the person knows, with the next step. Lotfile errors pass through. */
export function fileTrouble(error: unknown, about: string, doing: string): LotfileError {
  if (error instanceof LotfileError) return error;
  const code = codeOf(error);
  const said = error instanceof Error ? error.message : String(error);
  if (code === '') return new LotfileError('internal', `${doing} did not work: ${said}`, { about, cause: error });
  const [kind, why, next] = diskWords[code] ?? ['disk', `The system says: ${said}.`, 'Check the disk and try again.'];
  return new LotfileError(kind, `${doing} did not work. ${why}`, { about, next, cause: error });
}

function sqliteTrouble(code: string, message: string): readonly [ErrorCode, string, string] {
  if (code.startsWith('SQLITE_BUSY') || code.startsWith('SQLITE_LOCKED'))
    return ['lot busy', 'Another program is writing to this lot.', 'Wait a moment and try again.'];
  if (code === 'SQLITE_FULL') return ['disk', 'The disk is full.', 'Free some space and try again; nothing was lost.'];
  if (code === 'SQLITE_READONLY_DBMOVED')
    return [
      'disk',
      'The lot folder was moved or renamed while the lot was open.',
      'Close the lot and open it where it lies now; nothing was lost.',
    ];
  if (code.startsWith('SQLITE_READONLY'))
    return ['disk', 'The lot can only be read.', 'Move the lot folder to a place that can be written to.'];
  if (code.startsWith('SQLITE_IOERR') || code.startsWith('SQLITE_CANTOPEN'))
    return ['disk', 'The disk did not let the lot be read or written.', 'Check the disk and try again.'];
  if (code === 'SQLITE_CONSTRAINT_FOREIGNKEY')
    return [
      'conflict',
      'Something else in the lot still rests on it, or what it rests on is gone.',
      'Open the lot anew and try again.',
    ];
  return ['internal', `The lot's database says: ${message}.`, 'Please report this sentence; nothing was changed.'];
}

/** lot.sqlite itself can't be read any more: what mending is for. */
export function lotDamaged(
  about: string,
  given: { readonly say?: string; readonly cause?: unknown } = {},
): LotfileError {
  return new LotfileError('lot damaged', given.say ?? 'lot.sqlite is damaged.', {
    about,
    next: 'Close the lot and mend it: mend. What can’t be read is taken from its copies.',
    asks: 'mending',
    cause: given.cause,
  });
}

/** A database error as a LotfileError; other errors pass through unchanged. */
export function databaseTrouble(error: unknown, about: string): unknown {
  if (!(error instanceof Database.SqliteError)) return error;
  if (/^SQLITE_(CORRUPT|NOTADB)/.test(error.code)) return lotDamaged(about, { cause: error });
  const [code, say, next] = sqliteTrouble(error.code, error.message);
  return new LotfileError(code, say, { about, next, cause: error });
}
