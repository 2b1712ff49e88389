import type { TodayAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import { countInWords } from './words.ts';

function FirstBoxes({ open }: { readonly open: number }) {
  const say = `${countInWords(open)} of the first boxes on the lot’s card ${open === 1 ? 'is' : 'are'} empty.`;
  return (
    <>
      <p>
        {say.replace(/^./, (letter) => letter.toUpperCase())} They decide which errands apply here; “don’t know yet” is
        an answer.
      </p>
      <p className="no-print">
        <a className="button stamp" href={addressOf('lot')}>
          Answer the first boxes
        </a>
      </p>
    </>
  );
}

/** Where to begin: empty first boxes of the record card, files nobody said anything about, papers no errand brings. */
export function Beginning({ answer }: { readonly answer: TodayAnswer }) {
  const card = useAnswer('read-lot', {}).answer;
  const open = (card?.questions ?? []).filter(({ first, answer: given }) => first && given === undefined).length;
  const waiting = useAnswer('table', {}).answer?.items.length ?? 0;
  const { beginWith, can } = answer;
  const toBring = can.length === 0 && beginWith.length > 0;
  if (open === 0 && waiting === 0 && !toBring) return null;
  return (
    <section className="today-begin">
      <h2>Begin here</h2>
      {open === 0 ? null : <FirstBoxes open={open} />}
      {waiting === 0 ? null : (
        <p>
          {waiting === 1 ? 'A file lies' : `${waiting} files lie`} on the table. No errand knows of{' '}
          {waiting === 1 ? 'it' : 'them'} yet:{' '}
          <a href={addressOf('table')}>say what {waiting === 1 ? 'it is' : 'each is'}</a>.
        </p>
      )}
      {toBring ? (
        <p>
          Errands wait for papers only you can bring: <strong>{beginWith.join(', ')}</strong>.{' '}
          <a href={addressOf('table')}>Lay {beginWith.length === 1 ? 'it' : 'them'} on the table</a>
        </p>
      ) : null}
    </section>
  );
}
