import { useMemo, useState } from 'react';
import type { LotCard, PaperRow } from '../../../core/desk/contract/answers.ts';
import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { perform } from '../../state/doing.ts';
import { go, usePlace } from '../../state/place.ts';
import { tellDone } from '../../state/telling.ts';
import { FactField } from '../papers/FactField.tsx';
import { LinkFields } from '../papers/LinkFields.tsx';
import { MarkTicks } from '../papers/MarkTicks.tsx';
import { FileOrder } from './FileOrder.tsx';
import { KindPicker } from './KindPicker.tsx';
import { asksRevision, keepDraft, lacks, marksAsked } from './keep-item.ts';
import { kindOptions } from './kind-search.ts';
import { SubjectField } from './SubjectField.tsx';
import { Suggested } from './Suggested.tsx';
import { choose, type Draft, dropDraft, onPaperOnly, putDraft, putFiles, useTable } from './table-state.ts';

/** What the card has to know of the lot to ask only what matters here. */
export interface Known {
  readonly practice: Practice;
  readonly papers: readonly PaperRow[];
  readonly lot: LotCard;
  readonly items: readonly TableItem[];
}

export interface FillCardProps {
  readonly id: string;
  readonly draft: Draft;
  readonly known: Known;
}

interface PartProps {
  readonly draft: Draft;
  readonly known: Known;
  readonly onDraft: (change: Partial<Draft>) => void;
}

/** What was filled in stays while the kind is being looked for; facts it doesn't have are left out at keeping. */
function asKind(draft: Draft, kind: string | undefined, practice: Practice): Partial<Draft> {
  if (kind === undefined || draft.kind === undefined) return { kind };
  const sameSubject = practice.papers[kind]?.each === practice.papers[draft.kind]?.each;
  return { kind, links: [], subject: sameSubject ? draft.subject : undefined };
}

function WhatPart({ draft, known, onDraft }: PartProps) {
  const { practice, papers, items, lot } = known;
  const kinds = useMemo(() => kindOptions(practice, papers), [practice, papers]);
  const rule = draft.kind === undefined ? undefined : practice.papers[draft.kind];
  const suggested = items.find(({ item }) => item === draft.files[0])?.suggested;
  const kindRead = suggested?.kind === undefined ? undefined : practice.papers[suggested.kind]?.title;
  return (
    <>
      <KindPicker kinds={kinds} kind={draft.kind} onKind={(kind) => onDraft(asKind(draft, kind, practice))} />
      <Suggested
        words={kindRead}
        taken={draft.kind === suggested?.kind}
        onTake={() => onDraft({ kind: suggested?.kind, links: [] })}
      />
      {draft.kind === 'other' ? (
        <>
          <Field label="Its title" value={draft.title} onChange={(title) => onDraft({ title })} />
          <Suggested
            words={suggested?.title}
            taken={draft.title === suggested?.title}
            onTake={() => onDraft({ title: suggested?.title ?? '' })}
          />
        </>
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
function PrintedPart({ draft, known, onDraft }: PartProps) {
  const [more, showMore] = useState(draft.issuer !== '' || draft.revision !== '' || draft.effective !== undefined);
  return (
    <>
      <div className="fact-grid">
        <DayField label="Issued" value={draft.issued} onChange={(issued) => onDraft({ issued })} />
        <DayField
          label="Good through, as printed"
          value={draft.goodThrough}
          onChange={(goodThrough) => onDraft({ goodThrough })}
          hint="Leave it empty where none is stated"
        />
        <Field label="Number" value={draft.number} onChange={(number) => onDraft({ number })} />
      </div>
      {more ? (
        <div className="fact-grid">
          <DayField label="In force from" value={draft.effective} onChange={(effective) => onDraft({ effective })} />
          <Field
            label="Issued by, where it isn’t the office"
            value={draft.issuer}
            onChange={(issuer) => onDraft({ issuer })}
          />
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
function KindPart({ draft, known, onDraft }: PartProps) {
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
            <FactField
              key={id}
              title={title}
              sort={sort}
              said={draft.facts[id] ?? ''}
              onSay={(said) => onDraft({ facts: { ...draft.facts, [id]: said } })}
            />
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

async function putAside({ id, draft }: FillCardProps): Promise<void> {
  for (const item of draft.files) {
    const reply = await perform('put-aside', { item });
    if (!reply.ok) return;
    tellDone(`${item} is put aside; it lies in the table’s put-aside folder.`);
  }
  dropDraft(id);
  choose(undefined);
}

function Foot(props: FillCardProps) {
  const { id, draft, known } = props;
  const [busy, work] = useState(false);
  const lack = lacks(draft, known.practice, known.items);
  const keep = async (): Promise<void> => {
    work(true);
    const kept = await keepDraft({ id, draft, practice: known.practice, items: known.items });
    work(false);
    // What it was laid down for is done.
    if (kept && usePlace.getState().rest[0] === 'as') go('table');
    // The card just filled is gone: the keyboard goes on at the next one, or where the table is clear.
    if (kept) requestAnimationFrame(() => document.querySelector<HTMLElement>('.table-next')?.focus());
  };
  return (
    <footer className="table-foot">
      <div className="table-acts">
        <Button as="stamp" disabled={busy || lack !== undefined} onPress={() => void keep()}>
          {busy ? 'Keeping ...' : 'Keep'}
        </Button>
        {id === onPaperOnly ? null : (
          <Button disabled={busy} onPress={() => void putAside(props)}>
            Put aside
          </Button>
        )}
      </div>
      {lack === undefined ? null : <p className="small pencil">{lack}</p>}
    </footer>
  );
}

/** Said before anything is filled in: keeping the same bytes twice is seldom meant. */
function Already({ draft, items }: { readonly draft: Draft; readonly items: readonly TableItem[] }) {
  const again = items.find(({ item, already }) => draft.files.includes(item) && already !== undefined);
  if (again === undefined) return null;
  return (
    <p className="table-already small">
      {again.name} is kept already, byte for byte, as <strong>{again.already}</strong>. Put it aside, unless it is
      something else as well.
    </p>
  );
}

/** Files of the table that no draft but their own holds. */
function looseFiles(id: string, items: readonly TableItem[]): readonly string[] {
  const { drafts } = useTable.getState();
  const held = Object.entries(drafts).flatMap(([each, { files }]) => (files.length > 1 || each === id ? files : []));
  return items.filter(({ item, arriving }) => item !== id && !arriving && !held.includes(item)).map(({ item }) => item);
}

/** The record card to fill for what lies on the table. */
export function FillCard(props: FillCardProps) {
  const { id, draft, known } = props;
  const trouble = useTable(({ troubles }) => troubles[id]);
  const onDraft = (change: Partial<Draft>): void => putDraft(id, { ...draft, ...change });
  const part = { draft, known, onDraft };
  return (
    <section className="table-card" aria-label="Record card">
      <h2 className="table-next" tabIndex={-1}>
        {id === onPaperOnly ? 'A paper you hold' : 'What came in'}
      </h2>
      {trouble === undefined ? null : <Trouble error={trouble} />}
      {trouble?.asks === 'password' || draft.password !== undefined ? (
        <Field
          label="The password it opens with"
          value={draft.password ?? ''}
          onChange={(password) => onDraft({ password })}
          hint="Used once to open it; it is written nowhere"
        />
      ) : null}
      {id === onPaperOnly ? (
        <p className="small pencil">
          It stays in your hand: no pages are kept. Packets leave its place open and tell you to carry it.
        </p>
      ) : null}
      <Already draft={draft} items={known.items} />
      <FileOrder
        files={draft.files}
        others={looseFiles(id, known.items)}
        onFiles={(files) => putFiles(id, draft, files)}
      />
      <WhatPart {...part} />
      <PrintedPart {...part} />
      <KindPart {...part} />
      <Foot {...props} />
    </section>
  );
}
