import { useState } from 'react';
import type { TradeRow, TradesAnswer } from '../../../core/desk/contract/cost-answers.ts';
import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { useAnswer } from '../../state/asked.ts';
import { savePaper } from '../../state/writing.ts';
import { FirmRow } from './FirmRow.tsx';
import { FirmSlip } from './FirmSlip.tsx';
import { type Axis, axisOf, monthsOn, placeOf } from './time-axis.ts';
import './trades.css';

/** The question a first-timer asks first, answered in large letters. */
function WhoUncovered({ answer }: { readonly answer: TradesAnswer }) {
  const { uncovered, ahead, rows, day } = answer;
  const here = rows.filter(({ onSite }) => onSite).length;
  const nobody =
    here === 0
      ? 'No firm you noted is on site today.'
      : `${here === 1 ? 'The firm' : here === 2 ? 'Both firms' : `All ${here} firms`} on site today ${here === 1 ? 'has' : 'have'} papers for it in hand.`;
  return (
    <section
      className={uncovered.length > 0 ? 'trades-answer short' : 'trades-answer'}
      aria-labelledby="trades-question"
    >
      <h2 id="trades-question">Who is on site without cover?</h2>
      {uncovered.length === 0 ? (
        <p className="large">{nobody}</p>
      ) : (
        <ul className="large">
          {uncovered.map(({ say }) => (
            <li key={say}>{say}</li>
          ))}
        </ul>
      )}
      {ahead.length === 0 ? null : (
        <div className="ahead">
          <h3>Still to come</h3>
          <ul>
            {ahead.map(({ say }) => (
              <li key={say}>{say}</li>
            ))}
          </ul>
        </div>
      )}
      <p className="small pencil">
        As of {dayWithWeekday(day)}, by the papers you kept. A certificate shows what was insured when it was written;
        ask the insurer whether it still runs.
      </p>
    </section>
  );
}

function Months({ axis, answer }: { readonly axis: Axis; readonly answer: TradesAnswer }) {
  return (
    <div className="trades-months" aria-hidden="true">
      <span />
      <div className="line">
        {monthsOn(axis).map(({ day, left, word }) => (
          <span key={day} className="month" style={{ left: `${left}%` }}>
            {word}
          </span>
        ))}
        <span className="today" style={{ left: `${placeOf(axis, answer.day)}%` }} />
      </div>
      <span />
    </div>
  );
}

function byTrade(rows: readonly TradeRow[]): readonly (readonly [string, readonly TradeRow[]])[] {
  return [...Map.groupBy(rows, ({ trade }) => (trade === '' ? 'other' : trade))];
}

function Register({ answer }: { readonly answer: TradesAnswer }) {
  const axis = axisOf(answer.span);
  return (
    <div className="trades-register">
      <div className="trades-key small" aria-hidden="true">
        <span className="trades-strip sample">
          <span className="site" />
        </span>
        days on site
        <span className="trades-strip sample">
          <span className="held" />
        </span>
        papers in hand say yes
        <span className="trades-strip sample">
          <span className="gap" />
        </span>
        nothing in hand
      </div>
      <Months axis={axis} answer={answer} />
      {byTrade(answer.rows).map(([trade, rows]) => (
        <section key={trade} className="trades-trade" aria-label={trade}>
          <h2>{trade.charAt(0).toUpperCase() + trade.slice(1)}</h2>
          <ul>
            {rows.map((row) => (
              <FirmRow key={row.subject} row={row} axis={axis} day={answer.day} />
            ))}
          </ul>
        </section>
      ))}
    </div>
  );
}

function Empty({ onAdd }: { readonly onAdd: () => void }) {
  return (
    <div className="empty">
      <h2>No firm is noted yet</h2>
      <p>
        Every firm on your lot has to show a licence and insurance for each day it works there. Note a firm before it
        first comes, keep its papers on the table, and the days nothing covers stand here.
      </p>
      <Mark word="not asked for" say="licence, liability, compensation" />
      <Button as="stamp" onPress={onAdd}>
        Add a firm
      </Button>
    </div>
  );
}

/** The firms, their days on site, and what is in hand for each of those days. */
export function TradesScreen() {
  const answer = useAnswer('trades', {});
  const [adding, setAdding] = useState(false);
  return (
    <>
      <header>
        <div>
          <h1>Trades</h1>
          <p className="lead">Each firm, its days on site, and what it has to show for them.</p>
        </div>
        <div className="trades-acts">
          <Button onPress={() => void savePaper({ sort: 'firms' })}>Save the list of firms</Button>
          <Button as="stamp" onPress={() => setAdding(true)}>
            Add a firm
          </Button>
        </div>
      </header>
      <Answered of={answer}>
        {(found) =>
          found.rows.length === 0 ? (
            <Empty onAdd={() => setAdding(true)} />
          ) : (
            <>
              <WhoUncovered answer={found} />
              <Register answer={found} />
            </>
          )
        }
      </Answered>
      {adding ? <FirmSlip onClose={() => setAdding(false)} /> : null}
    </>
  );
}
