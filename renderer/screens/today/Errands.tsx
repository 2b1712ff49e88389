import type { TodayAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { OneErrand } from './OneErrand.tsx';

/** What can be gone on today, numbered in the order of doing; what was sent back stands first. */
export function Errands({ answer }: { readonly answer: TodayAnswer }) {
  if (answer.can.length === 0) return null;
  return (
    <section>
      <h2 className="unseen">What you can do today</h2>
      <ol className="today-errands">
        {answer.can.map((errand, index) => (
          <OneErrand
            key={`${errand.errand} ${errand.subject ?? ''}`}
            errand={errand}
            number={index + 1}
            day={answer.day}
            sameAs={answer.can.findIndex(({ office }) => office.id === errand.office.id) + 1}
            back={answer.back.find((row) => row.errand === errand.errand && row.subject === errand.subject)}
          />
        ))}
      </ol>
    </section>
  );
}
