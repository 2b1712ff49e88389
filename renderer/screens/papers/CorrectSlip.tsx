import { useState } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { go } from '../../state/place.ts';
import {
  type Correction,
  changedOnly,
  correctionOf,
  emptiedFacts,
  hasRevisionFact,
  isReadable,
  linksOf,
} from './correction.ts';
import { FactField } from './FactField.tsx';
import { isFactSort } from './fact-said.ts';
import { KindFields, OtherKindNote } from './KindFields.tsx';
import { LinkFields, type LinkSaid } from './LinkFields.tsx';
import { MarkTicks } from './MarkTicks.tsx';
import { PageReader } from './PageReader.tsx';
import { listInWords } from './state-words.ts';

interface FormProps {
  readonly paper: PagesAnswer;
  readonly now: Correction;
  readonly onNow: (now: Correction) => void;
}

function Printed({ paper, now, onNow }: FormProps) {
  return (
    <div className="fact-grid">
      <Field label="Number" value={now.number} onChange={(number) => onNow({ ...now, number })} />
      {hasRevisionFact(paper) ? null : (
        <Field label="Revision" value={now.revision} onChange={(revision) => onNow({ ...now, revision })} />
      )}
      <DayField label="Issued" value={now.issued} onChange={(issued) => onNow({ ...now, issued })} />
      <DayField label="In force from" value={now.effective} onChange={(effective) => onNow({ ...now, effective })} />
      <DayField
        label="Good through, as printed on it"
        value={now.goodThrough}
        onChange={(goodThrough) => onNow({ ...now, goodThrough })}
      />
      <Field
        label="Issued by, where it isn’t the office itself"
        value={now.issuer}
        onChange={(issuer) => onNow({ ...now, issuer })}
      />
    </div>
  );
}

function Facts({ paper, now, onNow }: FormProps) {
  const asked = paper.facts.filter(({ sort }) => isFactSort(sort));
  if (asked.length === 0) return null;
  return (
    <div className="fact-grid">
      {asked.map(({ fact, title, sort }) =>
        isFactSort(sort) ? (
          <FactField
            key={fact}
            title={title}
            sort={sort}
            said={now.facts[fact] ?? ''}
            onSay={(said) => onNow({ ...now, facts: { ...now.facts, [fact]: said } })}
          />
        ) : null,
      )}
    </div>
  );
}

function useCorrection(paper: PagesAnswer, onClose: () => void) {
  const [now, setNow] = useState(() => correctionOf(paper));
  const [links, setLinks] = useState<readonly LinkSaid[]>([]);
  const [trouble, setTrouble] = useState<ErrorShape>();
  const change = changedOnly(paper, now);
  const wanted = change ?? (links.length === 0 ? undefined : { edition: paper.edition });
  const correct = async (): Promise<void> => {
    if (wanted === undefined) return;
    const said = { ...wanted, links: [...links] };
    const say = ({ notes }: { readonly notes: readonly string[] }): string =>
      [`Corrected ${paper.title}.`, ...notes].join(' ');
    const reply = await perform('correct', said, { say, quiet: true });
    if (!reply.ok) setTrouble(reply.error);
    else {
      onClose();
      // What it is called by may have changed with its kind.
      if (reply.answer.paper !== paper.paper || now.kind !== paper.kind)
        go('papers', reply.answer.paper, paper.edition);
    }
  };
  return { now, setNow, links, setLinks, trouble, correct, ready: wanted !== undefined && isReadable(paper, now) };
}

export interface CorrectSlipProps {
  readonly paper: PagesAnswer;
  readonly onClose: () => void;
}

/** Puts right what was noted of an edition; the page itself is never touched. */
export function CorrectSlip({ paper, onClose }: CorrectSlipProps) {
  const { now, setNow, links, setLinks, trouble, correct, ready } = useCorrection(paper, onClose);
  const practice = useAnswer('practice', {}).answer?.practice;
  const papers = useAnswer('papers', { wanted: true }).answer?.papers;
  const subjects = useAnswer('read-lot', {}).answer?.subjects ?? [];
  const emptied = emptiedFacts(paper, now);
  const sameKind = now.kind === paper.kind;
  return (
    <Slip
      title={`Correct ${paper.title}`}
      open
      wide
      beside={paper.pages.length === 0 ? undefined : <PageReader pages={paper.pages} title={paper.title} />}
      onClose={onClose}
      foot={
        <>
          <Button as="stamp" disabled={!ready} onPress={() => void correct()}>
            Correct it
          </Button>
          <Button onPress={onClose}>Leave it</Button>
        </>
      }
    >
      <p className="small pencil">What you note is what stands on the sheet. The sheet itself stays as it came in.</p>
      {trouble === undefined ? null : <Trouble error={trouble} />}
      {practice === undefined ? null : (
        <KindFields paper={paper} practice={practice} subjects={subjects} now={now} onNow={setNow} />
      )}
      <Printed paper={paper} now={now} onNow={setNow} />
      {sameKind ? <Facts paper={paper} now={now} onNow={setNow} /> : <OtherKindNote />}
      {emptied.length === 0 ? null : (
        <p className="small">
          {listInWords(emptied)} stays as it is: what was noted can be put right here, or taken back under “What was
          done”.
        </p>
      )}
      <MarkTicks asked={paper.marksAsked} marks={now.marks} onMarks={(marks) => setNow({ ...now, marks })} />
      {practice === undefined || papers === undefined || !sameKind ? null : (
        <LinkFields
          ask={{
            practice,
            papers,
            kind: paper.kind,
            subject: paper.subjectTitle,
            self: paper.edition,
            has: linksOf(paper),
          }}
          links={links}
          onLinks={setLinks}
        />
      )}
    </Slip>
  );
}
