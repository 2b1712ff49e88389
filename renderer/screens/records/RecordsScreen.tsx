import { useMemo } from 'react';
import type { RecordRow } from '../../../core/desk/contract/answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { Field } from '../../kit/Field.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import { tellDone } from '../../state/telling.ts';
import { linesOf, orders, saidSoFar, sieves, type Wanted } from './arrange-records.ts';
import { NoteFiles, NoteSlip } from './NoteFiles.tsx';
import { RecordLines } from './RecordLines.tsx';
import { RecordSlip } from './RecordSlip.tsx';
import { useRecords, want } from './records-state.ts';
import { TickedBar } from './TickedBar.tsx';
import './records.css';

const sieveTitles = {
  all: 'All',
  photo: 'Photos',
  receipt: 'Receipts',
  'serial number': 'Serial numbers',
  note: 'Notes',
} as const;

function useWanted(): Wanted {
  const sieve = useRecords((state) => state.sieve);
  const order = useRecords((state) => state.order);
  const trade = useRecords((state) => state.trade);
  const place = useRecords((state) => state.place);
  const words = useRecords((state) => state.words);
  return useMemo(() => ({ sieve, order, trade, place, words }), [sieve, order, trade, place, words]);
}

const anyOne = 'any';

function Narrow({ records, wanted }: { readonly records: readonly RecordRow[]; readonly wanted: Wanted }) {
  const count = (sieve: Wanted['sieve']): number =>
    sieve === 'all' ? records.length : records.filter(({ sort }) => sort === sieve).length;
  const options = (field: 'trade' | 'place', all: string) => [
    { id: anyOne, title: all },
    ...saidSoFar(records, field).map((title) => ({ id: `= ${title}`, title })),
  ];
  const chosen = (id: string): string => (id === anyOne ? '' : id.slice(2));
  return (
    <div className="records-narrow">
      <Choices
        label="Show"
        options={sieves
          .filter((id) => id === 'all' || count(id) > 0)
          .map((id) => ({ id, title: `${sieveTitles[id]} ${count(id)}` }))}
        value={wanted.sieve}
        onChange={(id) => want({ sieve: sieves.find((each) => each === id) ?? 'all' })}
      />
      <Choices
        label="They stand"
        options={orders.map((id) => ({ id, title: `${id[0]?.toUpperCase()}${id.slice(1)}` }))}
        value={wanted.order}
        onChange={(id) => want({ order: orders.find((each) => each === id) ?? 'by day' })}
      />
      <Pick
        label="Place"
        options={options('place', 'Every place')}
        value={wanted.place === '' ? anyOne : `= ${wanted.place}`}
        onChange={(id) => want({ place: chosen(id) })}
      />
      <Pick
        label="Trade"
        options={options('trade', 'Every trade')}
        value={wanted.trade === '' ? anyOne : `= ${wanted.trade}`}
        onChange={(id) => want({ trade: chosen(id) })}
      />
      <Field label="With the words" value={wanted.words} onChange={(words) => want({ words })} />
    </div>
  );
}

/** Photos of what is on view, four or two to a sheet, with day and place under each. */
function PhotoSheets({ wanted }: { readonly wanted: Wanted }) {
  const make = async (perSheet: '2' | '4'): Promise<void> => {
    const { trade, place } = wanted;
    const reply = await perform(
      'write-paper',
      { sort: 'photo-sheet', perSheet, ...(trade === '' ? {} : { trade }), ...(place === '' ? {} : { place }) },
      { long: 'Laying photos on sheets' },
    );
    if (!reply.ok) return;
    for (const note of reply.answer.notes) tellDone(note);
    await saveFile(reply.answer);
  };
  const which = wanted.place === '' && wanted.trade === '' ? 'the photos' : 'these photos';
  return (
    <span>
      <Button as="word" small onPress={() => void make('4')} label={`Lay ${which} on sheets, four to a page`}>
        Lay {which} on sheets, four to a page
      </Button>
      {' or '}
      <Button as="word" small onPress={() => void make('2')} label={`Lay ${which} on sheets, two to a page`}>
        two
      </Button>
    </span>
  );
}

function Log({ records }: { readonly records: readonly RecordRow[] }) {
  const wanted = useWanted();
  const open = useRecords((state) => state.open);
  const lines = useMemo(() => linesOf(records, wanted), [records, wanted]);
  const shown = useMemo(() => lines.flatMap((line) => (line.of === 'record' ? [line.id] : [])), [lines]);
  const record = records.find((each) => each.record === open);
  return (
    <>
      <Narrow records={records} wanted={wanted} />
      <div className="records-acts">
        <TickedBar shown={shown} />
        {records.some(({ sort }) => sort === 'photo') ? <PhotoSheets wanted={wanted} /> : null}
      </div>
      {shown.length === 0 ? <p className="pencil">Nothing fits. Ask for less.</p> : null}
      <RecordLines lines={lines} order={wanted.order} />
      {record === undefined ? null : (
        <RecordSlip key={record.record} record={record} onClose={() => useRecords.setState({ open: undefined })} />
      )}
    </>
  );
}

function Beginning() {
  return (
    <div className="empty">
      <h2>No photos or receipts yet</h2>
      <p>
        Photos of what will be covered, receipts, serial numbers: light things that are no papers, but are asked for one
        day. Walk through before the walls close and take every side; what is chosen here at once takes its days from
        the camera.
      </p>
      <div className="records-acts">
        <NoteFiles sort="photo" as="stamp" />
        <NoteFiles sort="receipt" />
      </div>
    </div>
  );
}

/** Photos, receipts, serial numbers and notes: a log by day, place or trade. */
export function RecordsScreen() {
  const asked = useAnswer('records', {});
  return (
    <>
      <header>
        <div>
          <h1>Photos and receipts</h1>
          <p className="lead">What is behind the walls, what was paid, and what was said.</p>
        </div>
        {asked.answer === undefined || asked.answer.records.length === 0 ? null : (
          <div className="records-acts">
            <NoteFiles sort="photo" />
            <NoteFiles sort="receipt" />
          </div>
        )}
      </header>
      <NoteSlip />
      <Answered of={asked}>
        {({ records }) => (records.length === 0 ? <Beginning /> : <Log records={records} />)}
      </Answered>
    </>
  );
}
