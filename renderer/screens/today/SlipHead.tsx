import type { TodayAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords, daysBetween, dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { addressOf } from '../../state/place.ts';
import { useLot } from '../../state/session.ts';
import { daysInWords, reachInWords } from './words.ts';

function Target({ answer }: { readonly answer: TodayAnswer }) {
  const { day, target, finish } = answer;
  if (target === undefined) {
    return (
      <p>
        <a href={addressOf('lot')}>Set the day you hope to move in</a>, and every errand shows what time it has.
      </p>
    );
  }
  const left = daysBetween(day, target);
  const late = finish !== undefined && finish > target;
  return (
    <p>
      {left < 0 ? (
        <>You hoped to move in {dayInWords(target)}. </>
      ) : (
        <>
          <strong>{daysInWords(left)}</strong> to the day you hope to move in, {dayInWords(target)}.{' '}
        </>
      )}
      <span className={late ? 'today-late' : ''}>{reachInWords(answer)}</span>{' '}
      <a className="no-print" href={addressOf('way')}>
        See the way
      </a>
    </p>
  );
}

/** The head of the slip: the day, the lot, and how far it is to the day hoped for. */
export function SlipHead({ answer }: { readonly answer: TodayAnswer }) {
  const title = useLot((state) => state.title);
  return (
    <div className="today-top">
      <p className="today-day">{dayWithWeekday(answer.day)}</p>
      <p className="today-lot pencil">{title}</p>
      <Target answer={answer} />
    </div>
  );
}
