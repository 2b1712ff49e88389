import type { LotRecord } from '../../../store/index.ts';
import type { AtLot } from '../../context.ts';
import type { RecordRow } from '../../contract/answers.ts';
import { attendantOf } from './companions.ts';
import { smallEnding } from './lot-reader.ts';

/** Small pictures by the hash of what they show. */
type Smalls = ReadonlyMap<string, string>;

export function smallsOf(at: AtLot): Smalls {
  return at.lot.cachedOf(smallEnding);
}

/** The small picture's ticket; where none was made yet, one is when there is time. */
function smallOf({ file, filePath, fileName, sort }: LotRecord, at: AtLot, smalls: Smalls): string | undefined {
  if (file === undefined || filePath === undefined || sort === 'note') return undefined;
  const path = smalls.get(file);
  if (path !== undefined) return at.tickets.steady(path, 'small.jpg');
  attendantOf(at)?.smallLater({ path: filePath, name: fileName ?? 'photo', sha: file });
  return undefined;
}

export function recordRow(record: LotRecord, at: AtLot, smalls: Smalls): RecordRow {
  const { id, sort, title, day, place = '', wall = '', trade = '', amount, text = '', fileName, filePath } = record;
  return {
    record: id,
    sort,
    title,
    day,
    place,
    wall,
    trade,
    amount,
    text,
    file: fileName ?? '',
    ticket: filePath === undefined ? undefined : at.tickets.steady(filePath, fileName),
    small: smallOf(record, at, smalls),
  };
}
