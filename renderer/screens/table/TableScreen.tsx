import { useEffect } from 'react';
import { Answered } from '../../kit/Answered.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import { useLot } from '../../state/session.ts';
import { sameBefore } from '../papers/LinkFields.tsx';
import type { ScreenProps } from '../screen-props.ts';
import { ChooseFiles } from './ChooseFiles.tsx';
import { cutsLeft } from './cuts-left.ts';
import { EmptyTable } from './EmptyTable.tsx';
import { FillCard } from './FillCard.tsx';
import type { Known } from './FillParts.tsx';
import { ItemList } from './ItemList.tsx';
import { ItemView } from './ItemView.tsx';
import { JustKept } from './JustKept.tsx';
import { PutAside } from './PutAside.tsx';
import { partDraft, partingOf } from './parting.ts';
import { type Draft, draftIdOf, emptyDraft, onPaperOnly, tableOf, useTable } from './table-state.ts';
import { useReading } from './use-reading.ts';
import './table.css';

/** What the screen was asked to bring in: "keep a newer edition of this". */
interface Wanted {
  readonly kind?: string | undefined;
  /** By its id or its title. */
  readonly subject?: string | undefined;
}

function wantedOf(rest: readonly string[]): Wanted {
  return rest[0] === 'as' && rest[1] !== undefined ? { kind: rest[1], subject: rest[2] } : {};
}

/** A draft not begun yet; where a newer edition was asked for, it replaces the one there is unless told otherwise. */
function beginDraft(id: string, { kind, subject }: Wanted, { practice, papers, lot, items }: Known): Draft {
  const whose = lot.subjects.find(({ id: each, title }) => each === subject || title === subject);
  const draft = emptyDraft(id === onPaperOnly ? [] : [id], kind, whose?.id);
  const item = items.find((each) => each.item === id);
  if (item !== undefined && partingOf(useTable.getState(), item)?.how === 'one by one') {
    const [cut] = cutsLeft(item);
    if (cut !== undefined) return partDraft(item, cut);
  }
  const left = item?.leftPages;
  if (left !== undefined) return { ...draft, picks: { [id]: left } };
  if (kind === undefined) return draft;
  const [newest] = sameBefore({ practice, papers, kind, subject: whose?.title });
  return newest === undefined ? draft : { ...draft, links: [{ word: 'replaces', to: newest.id }] };
}

function Laid({ known, wanted }: { readonly known: Known; readonly wanted: Wanted }) {
  const table = useTable();
  const { items } = known;
  const chosen =
    table.chosen === onPaperOnly || items.some(({ item }) => item === table.chosen) ? table.chosen : undefined;
  const shown = chosen ?? items[0]?.item ?? onPaperOnly;
  const id = shown === onPaperOnly ? onPaperOnly : draftIdOf(table, shown);
  const item = items.find((each) => each.item === shown);
  const draft = table.drafts[id] ?? beginDraft(id, wanted, known);
  const there = { ...draft, files: draft.files.filter((file) => items.some((each) => each.item === file)) };
  const reading = useReading(there, items);
  return (
    <div className="table-spread">
      <ItemList items={items} draftId={id} />
      <div className="table-view">
        {item === undefined ? (
          <p className="table-hand slab">Held on paper only</p>
        ) : (
          <ItemView key={item.ticket} item={item} look={{ draft: there, read: reading.answer }} />
        )}
      </div>
      <FillCard key={`${id} ${there.part ?? ''}`} id={id} draft={there} known={known} reading={reading} />
    </div>
  );
}

function WantedLine({ title }: { readonly title: string }) {
  return (
    <p className="table-wanted">
      What you lay down now is: <strong>{title}</strong>. <a href={addressOf('table')}>Not this</a>
    </p>
  );
}

/** What came in and is not kept yet. */
export function TableScreen({ rest }: ScreenProps) {
  const key = useLot((state) => state.key);
  useEffect(() => tableOf(key), [key]);
  const wanted = wantedOf(rest);
  const asked = useAnswer('table', {});
  const practice = useAnswer('practice', {}).answer?.practice;
  const papers = useAnswer('papers', { wanted: true }).answer?.papers;
  const lot = useAnswer('read-lot', {}).answer;
  const onPaper = useTable((state) => state.chosen === onPaperOnly);
  const title = wanted.kind === undefined ? undefined : practice?.papers[wanted.kind]?.title;
  return (
    <>
      <header>
        <h1>On the table</h1>
        <ChooseFiles />
      </header>
      {title === undefined ? null : <WantedLine title={title} />}
      <JustKept />
      <PutAside names={asked.answer?.aside ?? []} />
      <Answered of={asked}>
        {({ items, folder, place }) => {
          if (items.length === 0 && !onPaper) return <EmptyTable folder={folder} place={place} awaited={title} />;
          if (practice === undefined || papers === undefined || lot === undefined) return null;
          return <Laid known={{ practice, papers, lot, items }} wanted={wanted} />;
        }}
      </Answered>
    </>
  );
}
