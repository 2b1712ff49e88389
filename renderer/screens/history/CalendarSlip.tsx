import type { CalendarAnswer, CalendarChange } from '../../../core/desk/contract/written-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Slip } from '../../kit/Slip.tsx';

const words = { new: 'new', moved: 'moved', reworded: 'other words', gone: 'no more' } as const;

function when({ day, was }: CalendarChange): string {
  return was === undefined ? dayInWords(day) : `${dayInWords(day)}, was ${dayInWords(was)}`;
}

/** What the calendar file says that the one before did not. */
export function CalendarSlip({ answer, onClose }: { readonly answer: CalendarAnswer; readonly onClose: () => void }) {
  const { events, before, changes, name } = answer;
  const since = before === undefined ? 'It is the first file.' : `Since the file of ${dayInWords(before)}:`;
  return (
    <Slip title="Your dates" open onClose={onClose}>
      <p>
        {events} dates stand in <span className="mono">{name}</span>. Open it with your calendar.
      </p>
      <p>{changes.length === 0 ? `${since} nothing changed.` : since}</p>
      <ul className="history-dates">
        {changes.map((change) => (
          <li key={`${change.sort} ${change.title} ${change.day}`}>
            <span className="small pencil">{words[change.sort]}</span>
            <span>{change.title}</span>
            <span className="small">{when(change)}</span>
          </li>
        ))}
      </ul>
    </Slip>
  );
}
