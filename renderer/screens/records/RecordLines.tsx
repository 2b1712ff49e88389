import type { RecordRow } from '../../../core/desk/contract/answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { port } from '../../client/port.ts';
import { LinesInView } from '../../kit/LinesInView.tsx';
import type { Order, RecordLine } from './arrange-records.ts';
import { tick, useRecords } from './records-state.ts';

const sorts: Readonly<Record<string, string>> = {
  photo: 'Photo',
  receipt: 'Receipt',
  note: 'Note',
  'serial number': 'Serial number',
};

/** Small and made once; nothing of the photo itself is fetched for the list. */
function Small({ record }: { readonly record: RecordRow }) {
  if (record.small === undefined) {
    return <span className="records-none small pencil">{record.file === '' ? '' : 'no picture yet'}</span>;
  }
  return <img src={port.address(record.small)} alt="" loading="lazy" />;
}

function Row({ record, order }: { readonly record: RecordRow; readonly order: Order }) {
  const ticked = useRecords((state) => state.ticked.includes(record.record));
  const { title, day, place, wall, trade, amount, text, sort } = record;
  const under = [
    order === 'by day' ? '' : dayInWords(day),
    order === 'by place' ? '' : place,
    wall,
    order === 'by trade' ? '' : trade,
  ].filter((part) => part !== '');
  return (
    <div className={ticked ? 'records-row ticked' : 'records-row'}>
      <label className="records-tick">
        <input type="checkbox" checked={ticked} onChange={(event) => tick(record.record, event.target.checked)} />
        <span className="unseen">Choose {title}</span>
      </label>
      <button type="button" className="records-open" onClick={() => useRecords.setState({ open: record.record })}>
        <span className="records-small">
          <Small record={record} />
        </span>
        <span className="records-words">
          <span className="records-title">{title}</span>
          <span className="small pencil">{[sorts[sort] ?? sort, ...under].join(' · ')}</span>
          {text === '' ? null : <span className="small records-text">{text.replace(/\s+/g, ' ').slice(0, 160)}</span>}
        </span>
        <span className="records-amount">{amount === undefined ? '' : moneyInWords(amount)}</span>
      </button>
    </div>
  );
}

function Heading({ line }: { readonly line: RecordLine & { readonly of: 'heading' } }) {
  return (
    <h2 className="records-heading">
      <span>{line.title}</span>
      <span className="small pencil">
        {line.count}
        {line.cents === 0 ? '' : ` · ${moneyInWords(line.cents)}`}
      </span>
    </h2>
  );
}

/** A ruled log. */
export function RecordLines({ lines, order }: { readonly lines: readonly RecordLine[]; readonly order: Order }) {
  return (
    <LinesInView
      className="records-lines"
      lines={lines}
      heightOf={(line) => (line?.of === 'heading' ? 52 : 82)}
      overscan={8}
    >
      {(line) => (line.of === 'heading' ? <Heading line={line} /> : <Row record={line.record} order={order} />)}
    </LinesInView>
  );
}
