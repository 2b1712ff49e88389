import { useState } from 'react';
import { verdictOf } from '../../../core/vocabulary/verdict.ts';
import { Button } from '../../kit/Button.tsx';
import { FigureNotes, wantsLook } from '../../kit/FigureNotes.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { useAnswer } from '../../state/asked.ts';
import { tooSoonInWords } from '../way/words.ts';
import { Against, Counted, jump } from './Against.tsx';
import { Comments } from './Comments.tsx';
import { ErrandHead } from './ErrandHead.tsx';
import type { Sight } from './errand-model.ts';
import { lay, useErrandView } from './errand-store.ts';
import { PacketsMade, usePacketsMade } from './PacketsMade.tsx';
import { PastVisits } from './PastVisits.tsx';
import { FinishedReader, StackReader } from './Readers.tsx';
import { Slips } from './Slips.tsx';
import { Spread } from './Spread.tsx';

function useSubjectTitle(subject: string | undefined): string | undefined {
  const card = useAnswer('read-lot', subject === undefined ? undefined : {}).answer;
  return card?.subjects.find(({ id }) => id === subject)?.title;
}

function Acts({ sight }: { readonly sight: Sight }) {
  const { answer, plan } = sight;
  const made = usePacketsMade(sight).length;
  const goings = answer.past.length;
  const { state } = answer.reading;
  if (state === "doesn't apply") return null;
  const waits = state === 'left with them' || state === 'sent back' || answer.needs.length === 0;
  const over = state === 'settled';
  return (
    <div className="errand-acts">
      {/* Where no paper goes along there is nothing to assemble. */}
      {answer.needs.length === 0 ? null : (
        <Button
          as={waits || over ? 'plain' : 'stamp'}
          disabled={plan === undefined}
          onPress={() => lay({ slip: 'assemble' })}
        >
          Assemble the packet
        </Button>
      )}
      <Button disabled={plan === undefined} onPress={() => lay({ slip: 'own sheet' })}>
        Your errand sheet
      </Button>
      <Button as={waits && !over ? 'stamp' : 'plain'} onPress={() => lay({ slip: 'outcome' })}>
        What came of it
      </Button>
      {goings === 0 ? null : (
        <Button as="word" onPress={() => jump('past visits')}>
          {goings === 1 ? '1 visit made' : `${goings} visits made`}
        </Button>
      )}
      {made === 0 ? null : (
        <Button as="word" onPress={() => jump('packets made')}>
          {made === 1 ? '1 packet made' : `${made} packets made`}
        </Button>
      )}
    </div>
  );
}

/** Sums done again with the numbers on the papers; open from the start only where one wants a second look. */
function Figures({ sight }: { readonly sight: Sight }) {
  const { figures } = sight.answer;
  const off = figures.filter(wantsLook);
  const [all, showAll] = useState(false);
  if (figures.length === 0) return null;
  const shown = all ? figures : off;
  const rest = figures.length - shown.length;
  return (
    <section className="errand-figures">
      <h2>Numbers on these papers, reckoned again</h2>
      {off.length > 0 ? null : (
        <p>{figures.length === 1 ? 'One sum was' : `${figures.length} sums were`} done again; nothing stands out.</p>
      )}
      {shown.length === 0 ? null : <FigureNotes rows={shown} />}
      {rest === 0 && !all ? null : (
        <Button as="word" small onPress={() => showAll(!all)}>
          {all ? 'fold' : off.length === 0 ? 'show them' : `${rest} more`}
        </Button>
      )}
    </section>
  );
}

/** Head, verdict, the spread, and what was made and handed over before. */
export function OneErrand({ sight }: { readonly sight: Sight }) {
  const { answer, target } = sight;
  const way = useAnswer('way', {}).answer;
  const stop = way?.stops.find((one) => one.errand === target.errand && one.subject === target.subject);
  const subject = useSubjectTitle(target.subject);
  const open = useErrandView((state) => state.open);
  const finished = useErrandView((state) => state.finished);
  const soon = stop === undefined ? undefined : tooSoonInWords(stop);
  const own = answer.office.sort === 'owner';
  const verdict = verdictOf(answer.reading, { own, comments: answer.comments.length, soon });
  const reading = open || finished !== undefined;
  return (
    <>
      <div className="errand-one" hidden={reading}>
        <header className="errand-title">
          <h1>
            {answer.errand.title}
            {subject === undefined ? '' : `, ${subject}`}
          </h1>
          <Acts sight={sight} />
          <p className={`lead errand-verdict ${verdict.tone}`}>
            <Mark word={answer.reading.state} say={answer.reading.cameBack} />{' '}
            <strong>
              <Counted text={verdict.say} />
            </strong>{' '}
            {verdict.first === undefined ? null : <span>{verdict.first} </span>}
            {verdict.more === undefined ? null : (
              <span>
                <Counted text={verdict.more} />
              </span>
            )}
          </p>
        </header>
        <Against sight={sight} />
        <ErrandHead sight={sight} way={way} />
        <Comments sight={sight} />
        <Figures sight={sight} />
        <Spread sight={sight} />
        <PastVisits sight={sight} />
        <PacketsMade sight={sight} />
      </div>
      {finished === undefined ? null : <FinishedReader file={finished} />}
      {open && sight.plan !== undefined ? <StackReader plan={sight.plan} /> : null}
      <Slips sight={sight} />
    </>
  );
}
