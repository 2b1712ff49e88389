import type { CostsAnswer, DrawRow } from '../../../core/desk/contract/cost-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark, type MarkWord } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { layOver } from './costs-store.ts';
import { shareWords } from './sums.ts';

const marks: Readonly<Record<DrawRow['state'], MarkWord>> = {
  'drawn up': 'can go',
  'asked for': 'left with them',
  paid: 'settled',
};

export function DrawMark({ row }: { readonly row: DrawRow }) {
  if (row.state === 'drawn up' && row.refused > 0) {
    return <Mark word="sent back" say={row.lacks} />;
  }
  return <Mark word={marks[row.state]} say={row.state} />;
}

function whenWords({ state, day, asked, paid }: DrawRow): string {
  if (state === 'paid' && paid !== undefined) return `paid ${dayInWords(paid)}`;
  return asked === undefined ? `work through ${dayInWords(day)}` : `asked for ${dayInWords(asked)}`;
}

function Card({ row }: { readonly row: DrawRow }) {
  const { number, sums, totals, paidAmount } = row;
  return (
    <li className="costs-card">
      <header>
        <h3>
          <a href={addressOf('costs', 'draw', String(number))}>Draw {number}</a>
          {row.final ? ', the last' : ''}
        </h3>
        <DrawMark row={row} />
      </header>
      <p className="due">{moneyInWords(paidAmount ?? sums.due)}</p>
      <dl>
        <dt>Day</dt>
        <dd>{whenWords(row)}</dd>
        <dt>Done of the whole</dt>
        <dd>{shareWords(totals.share)}</dd>
        <dt>Held back</dt>
        <dd>{moneyInWords(sums.retainage)}</dd>
      </dl>
    </li>
  );
}

/** The lender's draws as record cards, side by side in their order. */
export function DrawCards({ costs }: { readonly costs: CostsAnswer }) {
  const { draws, rows } = costs;
  return (
    <section className="costs-part" aria-labelledby="costs-draws">
      <header>
        <h2 id="costs-draws">Draws</h2>
        {rows.length === 0 ? null : <Button onPress={() => layOver({ slip: 'draw' })}>Draw up a draw</Button>}
      </header>
      {draws.length === 0 ? (
        <p className="pencil">
          No draw yet. A lender pays work that is done and material that is stored, less what it holds back, and wants
          the invoice, the payment and the waiver of each payee.
        </p>
      ) : (
        <ol className="costs-cards">
          {draws.map((row) => (
            <Card key={row.draw} row={row} />
          ))}
        </ol>
      )}
    </section>
  );
}
