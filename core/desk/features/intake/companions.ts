import type { AtLot } from '../../context.ts';
import { LotReader } from './lot-reader.ts';
import { TableAttendant } from './table-attendant.ts';

/** What lives beside an open lot for the papers that come in. */

export function readerOf(at: AtLot): LotReader {
  return at.beside({
    name: 'reader',
    make: ({ lot }) => new LotReader(lot),
    is: (found): found is LotReader => found instanceof LotReader,
  });
}

/** Who looks after the table; nobody does where the host goes away after a request, or may only look. */
export function attendantOf(at: AtLot): TableAttendant | undefined {
  if (at.host.stays !== true || at.lot.readOnly) return undefined;
  return at.beside({
    name: 'attendant',
    make: (made) => new TableAttendant(made, readerOf(made)),
    is: (found): found is TableAttendant => found instanceof TableAttendant,
  });
}
