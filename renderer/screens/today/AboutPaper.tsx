import type { SoonRow } from '../../../core/desk/contract/screen-answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { MoreTime } from '../../kit/MoreTimeSlip.tsx';
import { addressOf } from '../../state/place.ts';

/** Which paper it is, its last good day, and more time for it where that is given. */
export function AboutPaper({ row, today }: { readonly row: SoonRow; readonly today: Day }) {
  if (row.paper === undefined && row.by === undefined) return null;
  return (
    <p className="small pencil today-about">
      {row.paper === undefined ? row.title : <a href={addressOf('papers', row.paper)}>{row.title}</a>}
      {row.by === undefined
        ? ''
        : `${row.title === '' ? '' : ', '}${row.by < today ? 'since' : 'by'} ${dayInWords(row.by)}`}{' '}
      {row.extend === undefined ? null : (
        <span className="no-print">
          <MoreTime paper={row.extend} title={row.title} />
        </span>
      )}
    </p>
  );
}
