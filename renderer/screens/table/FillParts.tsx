import { type ReactNode, useMemo, useState } from 'react';
import type { LotCard, PaperRow } from '../../../core/desk/contract/answers.ts';
import type { TableItem, TableSuggestion } from '../../../core/desk/contract/screen-answers.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { FactField } from '../papers/FactField.tsx';
import { LinkFields } from '../papers/LinkFields.tsx';
import { MarkTicks } from '../papers/MarkTicks.tsx';
import { KindPicker } from './KindPicker.tsx';
import { asksRevision, marksAsked } from './keep-item.ts';
import { kindOptions } from './kind-search.ts';
import { type OfferId, offersOf } from './offers.ts';
import { ReadKinds } from './ReadKinds.tsx';
import { SubjectField } from './SubjectField.tsx';
import { Suggested } from './Suggested.tsx';
import type { Draft } from './table-state.ts';

/** What the card has to know of the lot to ask only what matters here. */
export interface Known {
  readonly practice: Practice;
  readonly papers: readonly PaperRow[];
  readonly lot: LotCard;
  readonly items: readonly TableItem[];
}

interface PartProps {
  readonly draft: Draft;
  readonly known: Known;
  readonly onDraft: (change: Partial<Draft>) => void;
  /** What was read for this draft. */
  readonly read: TableSuggestion | undefined;
}

type BesideProps = PartProps & { readonly id: OfferId; readonly children: ReactNode };

/** A field with what was read for it. */
function Beside({ draft, known, onDraft, read, id, children }: BesideProps) {
  const offer = offersOf(read, draft, known.practice).find((each) => each.id === id);
  return (
    <div className="table-field">
      {children}
      <Suggested offer={offer} onTake={(taken, said) => onDraft(taken.take(draft, said))} />
    </div>
  );
}

/** What was filled in stays while the kind is being looked for; facts it doesn't have are left out at keeping. */
function asKind(draft: Draft, kind: string | undefined, practice: Practice): Partial<Draft> {
  if (kind === undefined || draft.kind === undefined) return { kind };
  const sameSubject = practice.papers[kind]?.each === practice.papers[draft.kind]?.each;
  return { kind, links: [], subject: sameSubject ? draft.subject : undefined };
}

/** What it is, and whose. */
export function WhatPart({ draft, known, onDraft, read }: PartProps) {
  const { practice, papers, lot } = known;
  const kinds = useMemo(() => kindOptions(practice, papers), [practice, papers]);
  const rule = draft.kind === undefined ? undefined : practice.papers[draft.kind];
  return (
    <>
      <KindPicker kinds={kinds} kind={draft.kind} onKind={(kind) => onDraft(asKind(draft, kind, practice))} />
      <ReadKinds
        kinds={read?.kinds ?? []}
        kind={draft.kind}
        onKind={(kind) => onDraft(asKind(draft, kind, practice))}
      />
      {draft.kind === 'other' ? (
        <Field label="Its title" value={draft.title} onChange={(title) => onDraft({ title })} />
      ) : null}
      {rule?.hint === undefined ? null : <p className="small pencil">{rule.hint}</p>}
      {rule?.each === undefined ? null : (
        <SubjectField
          each={rule.each}
          subjects={lot.subjects}
          subject={draft.subject}
          onSubject={(subject) => onDraft({ subject, links: [] })}
        />
      )}
    </>
  );
}

/** What is printed on nearly every paper. */
export function PrintedPart(props: PartProps) {
  const { draft, known, onDraft, read } = props;
  const readMore = read?.effective !== undefined && read.effective.sureness !== 'guess';
  const [asked, showMore] = useState(draft.issuer !== '' || draft.revision !== '' || draft.effective !== undefined);
  const more = asked || readMore;
  return (
    <>
      <div className="fact-grid">
        <Beside {...props} id="issued">
          <DayField label="Issued" value={draft.issued} onChange={(issued) => onDraft({ issued })} />
        </Beside>
        <Beside {...props} id="goodThrough">
          <DayField
            label="Good through, as printed"
            value={draft.goodThrough}
            onChange={(goodThrough) => onDraft({ goodThrough })}
            hint="Leave it empty where none is stated"
          />
        </Beside>
        <Beside {...props} id="number">
          <Field label="Number" value={draft.number} onChange={(number) => onDraft({ number })} />
        </Beside>
      </div>
      {more ? (
        <div className="fact-grid">
          <Beside {...props} id="effective">
            <DayField label="In force from" value={draft.effective} onChange={(effective) => onDraft({ effective })} />
          </Beside>
          <Beside {...props} id="issuer">
            <Field
              label="Issued by, where it isn’t the office"
              value={draft.issuer}
              onChange={(issuer) => onDraft({ issuer })}
            />
          </Beside>
          {asksRevision(draft, known.practice) ? null : (
            <Field label="Revision" value={draft.revision} onChange={(revision) => onDraft({ revision })} />
          )}
        </div>
      ) : (
        <p>
          <Button as="word" small onPress={() => showMore(true)}>
            More stands on it
          </Button>
        </p>
      )}
    </>
  );
}

/** Only what this kind is asked for. */
export function KindPart(props: PartProps) {
  const { draft, known, onDraft } = props;
  const { practice, papers, lot } = known;
  const { kind } = draft;
  if (kind === undefined) return null;
  const rules = Object.values(practice.papers[kind]?.facts ?? {});
  const subject = lot.subjects.find(({ id }) => id === draft.subject)?.title;
  return (
    <>
      {rules.length === 0 ? null : (
        <div className="fact-grid">
          {rules.map(({ id, sort, title }) => (
            <Beside {...props} key={id} id={`fact ${id}`}>
              <FactField
                title={title}
                sort={sort}
                said={draft.facts[id] ?? ''}
                onSay={(said) => onDraft({ facts: { ...draft.facts, [id]: said } })}
              />
            </Beside>
          ))}
        </div>
      )}
      <MarkTicks asked={marksAsked(practice, kind)} marks={draft.marks} onMarks={(marks) => onDraft({ marks })} />
      {kind === 'other' ? null : (
        <LinkFields
          ask={{ practice, papers, kind, subject }}
          links={draft.links}
          onLinks={(links) => onDraft({ links })}
        />
      )}
    </>
  );
}
