import { useState } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import { EditionsBox, GiveBox, HoldersBox, OriginalsBox } from './CardCopies.tsx';
import { AskedBox, ClocksBox, FiguresBox, LinksBox, MarksBox, PrintedBox, StandingsBox } from './CardParts.tsx';
import { CorrectSlip } from './CorrectSlip.tsx';
import { NotApplicableSlip } from './NotApplicableSlip.tsx';
import { PurgeSlip } from './PurgeSlip.tsx';
import type { PointedAt } from './reader-pages.ts';
import { SlimSlip } from './SlimSlip.tsx';
import { StandingSlip } from './StandingSlip.tsx';
import { markSays } from './state-words.ts';
import { whyCounts } from './why-counts.ts';

type Open = 'smaller' | 'correct' | 'standing' | 'not applicable' | 'purge';

interface ActsProps {
  readonly paper: PagesAnswer;
  readonly onOpen: (slip: Open) => void;
}

function Acts({ paper, onOpen }: ActsProps) {
  const newer = ['as', paper.kind, ...(paper.subject === undefined ? [] : [paper.subject])];
  return (
    <div className="paper-acts">
      <Button onPress={() => onOpen('correct')}>Correct</Button>
      <Button onPress={() => onOpen('standing')}>An office acted</Button>
      <a className="button plain" href={addressOf('table', ...newer)}>
        Keep a newer one
      </a>
    </div>
  );
}

/** What is seldom wanted stands at the foot of the card. */
function FootActs({ paper, onOpen }: ActsProps) {
  const { notApplicable, title, originals } = paper;
  return (
    <footer className="paper-foot">
      {notApplicable === undefined ? (
        <Button as="word" small onPress={() => onOpen('not applicable')}>
          It doesn’t apply here
        </Button>
      ) : (
        <Button
          as="word"
          small
          onPress={() => void perform('applies-again', { paper: paper.paper }, { say: `${title} applies again.` })}
        >
          It applies after all
        </Button>
      )}
      {originals.length === 0 ? null : (
        <Button as="word" small onPress={() => onOpen('purge')}>
          Remove its file for good
        </Button>
      )}
    </footer>
  );
}

export interface RecordCardProps {
  readonly paper: PagesAnswer;
  readonly onPoint: (at: PointedAt) => void;
  /** Begins drawing over what nobody is to read. */
  readonly onBlackOut: () => void;
}

/** Everything known of one edition, box by box, and what can be done about it. */
export function RecordCard({ paper, onPoint, onBlackOut }: RecordCardProps) {
  const [open, setOpen] = useState<Open>();
  const today = useDay();
  const close = (): void => setOpen(undefined);
  const through = paper.validity.through;
  const until = through === 'for good' || through === 'unknown' || through === 'ended' ? undefined : through;
  const undated = through === 'unknown' ? paper.validityWords : undefined;
  const marked = { state: paper.state, goodThroughDay: until, undated };
  return (
    <aside className="paper-card" aria-label="Record card">
      <div className="paper-head">
        <Mark word={paper.state} say={paper.current ? markSays(marked) : undefined} />
        <p className="small">{whyCounts(paper, today)}</p>
      </div>
      <Acts paper={paper} onOpen={setOpen} />
      <PrintedBox paper={paper} onPoint={onPoint} />
      <FiguresBox paper={paper} />
      <ClocksBox paper={paper} />
      <MarksBox paper={paper} />
      <StandingsBox paper={paper} />
      <EditionsBox paper={paper} />
      <LinksBox paper={paper} />
      <AskedBox paper={paper} />
      <HoldersBox paper={paper} />
      <OriginalsBox paper={paper} />
      <GiveBox paper={paper} onBlackOut={onBlackOut} onSmaller={() => setOpen('smaller')} />
      {paper.hint === undefined ? null : <p className="small pencil paper-hint">{paper.hint}</p>}
      <FootActs paper={paper} onOpen={setOpen} />
      {open === 'correct' ? <CorrectSlip paper={paper} onClose={close} /> : null}
      {open === 'smaller' ? <SlimSlip paper={paper} onClose={close} /> : null}
      {open === 'standing' ? <StandingSlip paper={paper} onClose={close} /> : null}
      {open === 'purge' ? <PurgeSlip paper={paper} onClose={close} /> : null}
      <NotApplicableSlip paper={paper.paper} title={paper.title} open={open === 'not applicable'} onClose={close} />
    </aside>
  );
}
