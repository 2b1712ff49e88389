import type { TodayAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { savePaper } from '../../state/writing.ts';

/** What may not be done yet, in large plain words; who decides stands in each. */
export function NotYet({ holds }: Pick<TodayAnswer, 'holds'>) {
  if (holds.length === 0) return null;
  return (
    <section className="today-not-yet">
      <h2>Not yet</h2>
      <ul>
        {holds.map(({ hold, title, say, waitsFor, unknown }) => (
          <li key={hold}>
            <p className="today-hold">{title}</p>
            <p>
              <strong>{unknown ? 'First find out whether it is asked here.' : `First: ${waitsFor.join(', ')}.`}</strong>
            </p>
            <p className="small">{say}</p>
            <Button
              as="word"
              small
              onPress={() => void savePaper({ sort: 'hold-sheet', hold })}
              label={`Save the hold sheet: ${title}`}
            >
              Hold sheet
            </Button>
          </li>
        ))}
      </ul>
    </section>
  );
}
