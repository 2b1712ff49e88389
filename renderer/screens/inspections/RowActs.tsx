import type { InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { savePaper } from '../../state/writing.ts';
import { lay } from './inspections-store.ts';
import { titleOf } from './words.ts';

/** What can be done about one of them, in place. */
export function RowActs({ row, main }: { readonly row: InspectionRow; readonly main: boolean }) {
  const { errand, subject, booked, state } = row;
  const title = titleOf(row);
  const came = booked !== undefined || state === 'sent back';
  const now = main && (came || state === 'can go');
  return (
    <div className="inspections-acts">
      <Button
        as={now && !came ? 'stamp' : 'plain'}
        onPress={() => lay({ slip: 'book', row })}
        label={`${booked === undefined ? 'Note a day you booked' : 'Move the day'}: ${title}`}
      >
        {booked === undefined ? 'Note a day you booked' : 'Move the day'}
      </Button>
      <Button
        as={now && came ? 'stamp' : 'plain'}
        onPress={() => lay({ slip: 'outcome', row })}
        label={`What came of it: ${title}`}
      >
        What came of it
      </Button>
      <Button
        onPress={() => void savePaper({ sort: 'inspection-day', errand, subject })}
        label={`Save the inspection-day sheet: ${title}`}
      >
        Inspection-day sheet
      </Button>
    </div>
  );
}
