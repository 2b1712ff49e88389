import type { LotRecord } from '../../../store/index.ts';
import type { AtLot } from '../../context.ts';
import type { RecordRow } from '../../contract/answers.ts';
import { attendantOf } from './companions.ts';
import { smallEnding } from './lot-reader.ts';

/** The small picture's ticket; where none was made yet, one is when there is time. */
function smallOf({ file, filePath, fileName, sort }: LotRecord, at: AtLot): string | undefined {
  if (file === undefined || filePath === undefined || sort === 'note') return undefined;
  const path = at.lot.cachedPath(file, smallEnding);
  if (path !== undefined) return at.tickets.steady(path, 'small.jpg');
  attendantOf(at)?.smallLater({ path: filePath, name: fileName ?? 'photo', sha: file });
  return undefined;
}

export function recordRow(record: LotRecord, at: AtLot): RecordRow {
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
    small: smallOf(record, at),
  };
}
