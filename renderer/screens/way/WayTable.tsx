import { Fragment } from 'react';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import type { Column, Group, Order } from './arrange.ts';
import { lateInWords } from './lives.ts';
import type { Station, WayModel } from './model.ts';
import { feeInWords, numbersInWords, spareInWords, tooSoonInWords, whenInWords } from './words.ts';

export interface WayTableProps {
  readonly groups: readonly Group[];
  readonly model: WayModel;
  readonly order: Order;
  readonly onOrder: (order: Order) => void;
}

const heads: readonly { readonly id: string; readonly title: string; readonly sorts?: Column }[] = [
  { id: 'number', title: 'No.', sorts: 'number' },
  { id: 'errand', title: 'Errand', sorts: 'errand' },
  { id: 'state', title: 'State' },
  { id: 'earliest', title: 'Earliest', sorts: 'earliest' },
  { id: 'back', title: 'Back by' },
  { id: 'spare', title: 'Spare', sorts: 'spare' },
  { id: 'fee', title: 'Fee', sorts: 'fee' },
  { id: 'waits', title: 'Waits for' },
];

function Heads({ order, onOrder }: Pick<WayTableProps, 'order' | 'onOrder'>) {
  return (
    <tr>
      {heads.map(({ id, title, sorts }) =>
        sorts === undefined ? (
          <th key={id} scope="col">
            {title}
          </th>
        ) : (
          <th key={id} scope="col" aria-sort={order.by !== sorts ? 'none' : order.down ? 'descending' : 'ascending'}>
            <Button as="word" small onPress={() => onOrder({ by: sorts, down: order.by === sorts && !order.down })}>
              {title}
              {order.by === sorts ? <span aria-hidden="true">{order.down ? ' ↑' : ' ↓'}</span> : ''}
            </Button>
          </th>
        ),
      )}
    </tr>
  );
}

function Warned({ station, model }: { readonly station: Station; readonly model: WayModel }) {
  const late = model.lives.filter(({ lateFor }) => lateFor.includes(station));
  const soon = tooSoonInWords(station.row);
  return (
    <>
      {late.map((life) => (
        <p key={life.key} className="way-warned">
          {lateInWords(life)}.
        </p>
      ))}
      {soon === undefined ? null : <p className="way-warned">{soon}</p>}
    </>
  );
}

function Row({ station, model }: { readonly station: Station; readonly model: WayModel }) {
  const { row, number, title, state } = station;
  const before = model.stations.filter(({ key }) => station.waitsFor.includes(key));
  const settled = state === 'settled';
  return (
    <tr className={settled ? 'settled' : ''}>
      <td data-head="No.">{number}</td>
      <th scope="row">
        <a href={addressOf('errand', row.errand, ...(row.subject === undefined ? [] : [row.subject]))}>{title}</a>
        <span className="pencil small">{row.office}</span>
        <Warned station={station} model={model} />
      </th>
      <td data-head="State">
        <Mark word={state} />
      </td>
      <td data-head="Earliest">{whenInWords(station)}</td>
      <td data-head="Back by">{row.done === undefined || settled ? '' : dayInWords(row.done)}</td>
      <td data-head="Spare">{settled ? '' : spareInWords(row.spare).replace(' to spare', '')}</td>
      <td data-head="Fee">
        {settled ? '' : row.fee === undefined ? <span className="pencil">not known</span> : feeInWords(row.fee)}
      </td>
      <td data-head="Waits for">{numbersInWords(before)}</td>
    </tr>
  );
}

/** The errands, a line each, under their group. */
export function WayTable({ groups, model, order, onOrder }: WayTableProps) {
  return (
    <table className="way-table">
      <caption className="unseen">Errands of the way</caption>
      <thead>
        <Heads order={order} onOrder={onOrder} />
      </thead>
      {groups.map(({ title, stations }) => (
        <Fragment key={title}>
          <tbody>
            {title === '' ? null : (
              <tr className="group">
                <th scope="colgroup" colSpan={heads.length}>
                  <h2>{title}</h2>
                </th>
              </tr>
            )}
            {stations.map((station) => (
              <Row key={station.key} station={station} model={model} />
            ))}
          </tbody>
        </Fragment>
      ))}
    </table>
  );
}
