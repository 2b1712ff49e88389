import { useState } from 'react';
import type { CostsAnswer } from '../../../core/desk/contract/cost-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { columnSum } from './sums.ts';

/** What can burn, against what is insured. */
function Value({ value }: { readonly value: CostsAnswer['value'] }) {
  const { completed, land, withoutLand, insured, insuredBy, difference } = value;
  if (withoutLand === undefined) {
    return (
      <section className="costs-note">
        <h3>Finished value and insurance</h3>
        <p className="small">
          Answer what the finished house and the land are worth on the <a href={addressOf('lot')}>record card</a>, and
          the insured value is set against it here.
        </p>
      </section>
    );
  }
  return (
    <section className="costs-note">
      <h3>Finished value and insurance</h3>
      <dl className="costs-sums">
        <dt>Finished</dt>
        <dd>{columnSum(completed)}</dd>
        <dt>Less the land</dt>
        <dd>{columnSum(land)}</dd>
        <dt className="ruled">Without the land</dt>
        <dd className="ruled">{columnSum(withoutLand)}</dd>
        <dt>
          Insured{insuredBy === undefined ? '' : ' by '}
          {insuredBy === undefined ? null : <a href={addressOf('papers', insuredBy.paper)}>{insuredBy.title}</a>}
        </dt>
        <dd>{insured === undefined ? 'not noted' : columnSum(insured)}</dd>
      </dl>
      {difference === undefined ? null : difference < 0 ? (
        <p className="small">
          <Mark word="disagree" say={`${moneyInWords(-difference)} short`} />
        </p>
      ) : (
        <p className="small pencil">The insured value reaches the finished value without the land.</p>
      )}
    </section>
  );
}

function FeeList({ rows }: Pick<CostsAnswer['fees'], 'rows'>) {
  return (
    <ul className="costs-fees small">
      {rows.map(({ errand, title, fee, feeNote, settled }) => (
        <li key={`${errand} ${title} ${settled}`}>
          <a href={addressOf('errand', errand)}>{title}</a>
          <span>
            {fee === undefined ? (feeNote ?? 'ask') : columnSum(fee)}
            {settled ? ', gone on already' : ''}
          </span>
        </li>
      ))}
    </ul>
  );
}

export function Fees({ fees }: { readonly fees: CostsAnswer['fees'] }) {
  const [shown, show] = useState(false);
  const { known, settled, unknown, rows } = fees;
  return (
    <section className="costs-note">
      <h3>Offices’ fees, the whole way</h3>
      <dl className="costs-sums">
        <dt>Of errands gone on already</dt>
        <dd>{columnSum(settled)}</dd>
        <dt>Known of those to come</dt>
        <dd>{known === settled && unknown > 0 ? 'nothing yet' : columnSum(known - settled)}</dd>
        <dt className="ruled">Known so far</dt>
        <dd className="ruled">{columnSum(known)}</dd>
      </dl>
      {unknown === 0 ? null : (
        <p className="small">
          Not in these sums: {unknown === 1 ? '1 fee' : `${unknown} fees`} still to come that only the{' '}
          {unknown === 1 ? 'office knows' : 'offices know'}.
        </p>
      )}
      {settled === 0 ? null : (
        <p className="small pencil">Whether an office’s fee was paid is not noted here: your receipts show it.</p>
      )}
      {rows.length === 0 ? null : (
        <Button
          as="word"
          small
          onPress={() => show(!shown)}
          label={shown ? 'Show less of the fees' : 'Show the fees one by one'}
        >
          {shown ? 'less' : 'one by one'}
        </Button>
      )}
      {shown ? <FeeList rows={rows} /> : null}
    </section>
  );
}

function Orders({ orders }: { readonly orders: CostsAnswer['orders'] }) {
  if (orders.length === 0) return null;
  return (
    <section className="costs-note">
      <h3>Change orders</h3>
      <ul className="costs-orders">
        {orders.map(({ order, number, day, title, lineTitle, amount, fromContingency }) => (
          <li key={order}>
            <span className="mono pencil">{number}</span>
            <span>
              {title}{' '}
              <span className="small pencil">
                {lineTitle}, {dayInWords(day)}
                {fromContingency ? ', from the contingency' : ''}
              </span>{' '}
              <Button
                as="word"
                small
                label={`Take away change order ${number}`}
                onPress={() =>
                  void perform(
                    'remove-cost',
                    { what: 'change-order', row: order },
                    { say: `Took change order ${number} away.` },
                  )
                }
              >
                take away
              </Button>
            </span>
            <span className="sum">{columnSum(amount)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What stands in the margin of the ledger. */
export function Beside({ costs }: { readonly costs: CostsAnswer }) {
  return (
    <div className="costs-beside">
      <Value value={costs.value} />
      <Fees fees={costs.fees} />
      <Orders orders={costs.orders} />
    </div>
  );
}
