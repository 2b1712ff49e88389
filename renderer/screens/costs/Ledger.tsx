import type { ContingencyRow, CostRow, CostsAnswer } from '../../../core/desk/contract/cost-answers.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { inPlace } from '../../kit/in-place.ts';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { layOver } from './costs-store.ts';
import { columnSum, shareWords } from './sums.ts';

function Amounts({ sums }: { readonly sums: readonly (number | undefined)[] }) {
  return inPlace(sums).map(({ part, place }) => (
    <td key={place} className="sum">
      {columnSum(part)}
    </td>
  ));
}

function under(row: CostRow): string {
  const { firm, changes, billed, held } = row;
  return [
    firm,
    changes === 0 ? undefined : `change orders ${changes > 0 ? '+' : '−'}${columnSum(Math.abs(changes))}`,
    billed === 0 ? undefined : `billed ${columnSum(billed)}`,
    held === 0 ? undefined : `you hold back ${columnSum(held)}`,
  ]
    .filter((each) => each !== undefined)
    .join(' · ');
}

function Line({ row }: { readonly row: CostRow }) {
  const more = under(row);
  return (
    <tr>
      <th scope="row">
        <Button as="word" onPress={() => layOver({ slip: 'line', row })} label={`${row.title}: change the line`}>
          {row.title}
        </Button>
        {more === '' ? null : <span className="small pencil more">{more}</span>}
      </th>
      <Amounts sums={[row.estimate, row.agreed, row.paid, row.toPay]} />
    </tr>
  );
}

function Contingency({ row }: { readonly row: ContingencyRow }) {
  const used = [
    row.moved === 0 ? undefined : `${columnSum(row.moved)} by change orders`,
    row.overruns === 0
      ? undefined
      : `${columnSum(Math.abs(row.overruns))} ${row.overruns > 0 ? 'by prices above the estimate' : 'given back by prices below it'}`,
  ].filter((each) => each !== undefined);
  return (
    <tr className="contingency">
      <th scope="row">
        <Button
          as="word"
          label={`${row.title}: change what is planned`}
          onPress={() =>
            layOver({
              slip: 'line',
              contingency: true,
              row: {
                ...row,
                sort: 'contingency',
                estimate: row.planned,
                changes: 0,
                billed: 0,
                paid: 0,
                held: 0,
                toPay: 0,
              },
            })
          }
        >
          {row.title}
        </Button>
        <span className="small pencil more">
          {row.share === undefined ? '' : `${shareWords(row.share)} of the estimated work`}
          {used.length === 0 ? '' : ` · ${used.join(', ')}`}
        </span>
      </th>
      <td className="sum">{columnSum(row.planned)}</td>
      <td className="left" colSpan={3}>
        <strong>{moneyInWords(row.left)}</strong> left
      </td>
    </tr>
  );
}

function Total({
  title,
  sums,
  whole,
}: {
  readonly title: string;
  readonly sums: readonly (number | undefined)[];
  readonly whole?: boolean;
}) {
  return (
    <tr className={whole === true ? 'total ruled-off' : 'total'}>
      <th scope="row">{title}</th>
      <Amounts sums={sums} />
    </tr>
  );
}

/** A sheet of ledger paper: one line a trade, four columns, the contingency, sums ruled off twice. */
export function Ledger({ costs }: { readonly costs: CostsAnswer }) {
  const { rows, contingency, totals } = costs;
  const house = rows.filter(({ sort }) => sort !== 'land');
  const land = rows.filter(({ sort }) => sort === 'land');
  const sum = (of: (row: CostRow) => number): number => house.reduce((total, row) => total + of(row), 0);
  const buffer = contingency?.planned ?? 0;
  return (
    <Scrolled className="costs-paper" label="Ledger">
      <table className="costs-ledger">
        <caption className="unseen">Estimate, agreed, paid and still to pay, in dollars</caption>
        <thead>
          <tr>
            <th scope="col">Work</th>
            <th scope="col">Estimate</th>
            <th scope="col">Agreed</th>
            <th scope="col">Paid</th>
            <th scope="col">Still to pay</th>
          </tr>
        </thead>
        <tbody>
          {house.map((row) => (
            <Line key={row.line} row={row} />
          ))}
          {contingency === undefined ? null : <Contingency row={contingency} />}
          <Total
            title={land.length === 0 ? 'In all' : 'The house without the land'}
            sums={[
              sum(({ estimate }) => estimate) + buffer,
              sum(({ agreed }) => agreed ?? 0),
              sum(({ paid }) => paid),
              sum(({ toPay }) => toPay),
            ]}
            whole={land.length === 0}
          />
          {land.map((row) => (
            <Line key={row.line} row={row} />
          ))}
          {land.length === 0 ? null : (
            <Total
              title="With the land"
              sums={[totals.estimate + buffer, totals.agreed, totals.paid, totals.toPay]}
              whole
            />
          )}
        </tbody>
      </table>
    </Scrolled>
  );
}
