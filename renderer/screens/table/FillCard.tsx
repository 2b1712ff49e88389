import { useEffect, useState } from 'react';
import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import type { Answered } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { go, usePlace } from '../../state/place.ts';
import { tellDone, tellTrouble } from '../../state/telling.ts';
import { Cuts } from './Cuts.tsx';
import { focusCard } from './card-focus.ts';
import { FileOrder } from './FileOrder.tsx';
import { FilePages } from './FilePages.tsx';
import { KindPart, type Known, PrintedPart, WhatPart } from './FillParts.tsx';
import { keepDraft, lacks } from './keep-item.ts';
import { PasswordField } from './PasswordField.tsx';
import { ReadLine } from './ReadLine.tsx';
import { choose, type Draft, dropDraft, onPaperOnly, putDraft, putFiles, useTable } from './table-state.ts';

export interface FillCardProps {
  readonly id: string;
  readonly draft: Draft;
  readonly known: Known;
  readonly reading: Answered<'read'>;
}

async function putAside({ id, draft }: FillCardProps): Promise<void> {
  for (const item of draft.files) {
    const reply = await perform('put-aside', { item });
    if (!reply.ok) return;
    tellDone(`${item} is put aside: take it up again above.`);
  }
  dropDraft(id);
  choose(undefined);
}

function filesOf({ draft, known }: FillCardProps): readonly TableItem[] {
  return known.items.filter(({ item }) => draft.files.includes(item));
}

function allPictures(props: FillCardProps): boolean {
  const files = filesOf(props);
  return files.length > 0 && files.every(({ sort, arriving }) => sort === 'picture' && !arriving);
}

/** A photo of the house is no paper: it goes to the records, light. */
async function noteAsPhotos(props: FillCardProps): Promise<void> {
  const files = filesOf(props).map(({ ticket }) => ticket);
  const say = files.length === 1 ? 'Noted among the photos.' : `${files.length} noted among the photos.`;
  const reply = await perform('record-files', { files: [...files] }, { long: 'Noting photos', say });
  if (!reply.ok) return;
  for (const { error } of reply.answer.refused) tellTrouble(error);
  dropDraft(props.id);
  choose(undefined);
}

/** One key confirms and goes on, wherever on the card the hands are. */
function useKeepKey(keep: (() => Promise<void>) | undefined): void {
  useEffect(() => {
    if (keep === undefined) return;
    const hear = (event: KeyboardEvent): void => {
      if (event.key !== 'Enter' || !(event.ctrlKey || event.metaKey)) return;
      event.preventDefault();
      void keep();
    };
    window.addEventListener('keydown', hear);
    return () => window.removeEventListener('keydown', hear);
  }, [keep]);
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
    if (kept) focusCard();
  };
  useKeepKey(busy || lack !== undefined ? undefined : keep);
  return (
    <footer className="table-foot">
      <div className="table-acts">
        <Button as="stamp" disabled={busy || lack !== undefined} onPress={() => void keep()}>
          {busy ? 'Keeping ...' : 'Keep'}
        </Button>
        {id !== onPaperOnly && allPictures(props) ? (
          <Button disabled={busy} onPress={() => void noteAsPhotos(props)}>
            Only a photo, no paper
          </Button>
        ) : null}
        {id === onPaperOnly ? null : (
          <Button disabled={busy} onPress={() => void putAside(props)}>
            Put aside
          </Button>
        )}
      </div>
      <p className="small pencil">{lack ?? 'Ctrl+Enter keeps it and goes on to the next.'}</p>
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
  const { id, draft, known, reading } = props;
  const trouble = useTable(({ troubles }) => troubles[id]);
  const onDraft = (change: Partial<Draft>): void => putDraft(id, { ...draft, ...change });
  const read = reading.answer;
  const part = { draft, known, onDraft, read };
  return (
    <section className="table-card" aria-label="Record card">
      <h2 className="table-next" tabIndex={-1}>
        {id === onPaperOnly ? 'A paper you hold' : 'What came in'}
      </h2>
      {trouble === undefined ? null : <Trouble error={trouble} />}
      <PasswordField {...{ trouble, reading, draft, onDraft }} />
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
      <Cuts id={id} draft={draft} items={known.items} />
      <FilePages draft={draft} items={known.items} read={read} onDraft={onDraft} />
      <ReadLine reading={reading} draft={draft} practice={known.practice} onDraft={onDraft} />
      <WhatPart {...part} />
      <PrintedPart {...part} />
      <KindPart {...part} />
      <Foot {...props} />
    </section>
  );
}
