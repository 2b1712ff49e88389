import { useState } from 'react';
import type { DrawCheckAnswer, DrawLineRow } from '../../../core/desk/contract/cost-answers.ts';
import { dayInWords, latest } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { inPlace } from '../../kit/in-place.ts';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { useAnswer } from '../../state/asked.ts';
import { fetchAnswer, perform } from '../../state/doing.ts';
import { addressOf, go } from '../../state/place.ts';
import { saveFile } from '../../state/saving.ts';
import { useDay } from '../../state/session.ts';
import { layOver } from './costs-store.ts';
import { DrawMark } from './DrawCards.tsx';
import { columnSum, shareWords } from './sums.ts';

function Summary({ draw }: { readonly draw: DrawCheckAnswer }) {
  const { sums, workPercent, storedPercent } = draw;
  const rows: readonly (readonly [string, number, string?])[] = [
    ['Original sum', sums.original],
    ['Net of change orders', sums.changes],
    ['Sum to date', sums.toDate],
    ['Completed and stored to date', sums.completed],
    ['Retainage', sums.retainage, `${workPercent} % of work, ${storedPercent} % of stored material`],
    ['Earned less retainage', sums.earned],
    ['Less previous payments', sums.previousPayments],
    ['Due now', sums.due],
    ['Balance to finish, retainage included', sums.balance],
  ];
  return (
    <table className="costs-ledger costs-summary">
      <caption className="unseen">Sums of the draw, in dollars</caption>
      <tbody>
        {rows.map(([title, cents, more]) => (
          <tr key={title} className={title === 'Due now' ? 'total ruled-off' : ''}>
            <th scope="row">
              {title}
              {more === undefined ? null : <span className="small pencil more">{more}</span>}
            </th>
            <td className="sum">{columnSum(cents)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function Cells({ line }: { readonly line: Omit<DrawLineRow, 'line' | 'title'> }) {
  return (
    <>
      {inPlace([line.scheduled, line.previous, line.work, line.stored, line.completed]).map(({ part, place }) => (
        <td key={place} className="sum">
          {columnSum(part)}
        </td>
      ))}
      <td className="sum">{line.completed === 0 ? '—' : shareWords(line.share)}</td>
      <td className="sum">{columnSum(line.balance)}</td>
      <td className="sum">{columnSum(line.retainage)}</td>
    </>
  );
}

function Schedule({ draw }: { readonly draw: DrawCheckAnswer }) {
  return (
    <Scrolled className="costs-paper" label="Schedule of values">
      <table className="costs-ledger costs-schedule">
        <caption className="unseen">Schedule of values, in dollars</caption>
        <thead>
          <tr>
            {['Work', 'Scheduled', 'Previous', 'This draw', 'Stored', 'To date', '%', 'Balance', 'Held'].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {draw.lines.map((line) => (
            <tr key={line.line}>
              <th scope="row">{line.title}</th>
              <Cells line={line} />
            </tr>
          ))}
          <tr className="total ruled-off">
            <th scope="row">Total</th>
            <Cells line={draw.totals} />
          </tr>
        </tbody>
      </table>
    </Scrolled>
  );
}

function Acts({ draw }: { readonly draw: DrawCheckAnswer }) {
  const day = useDay();
  const { state, number, draw: row, refused, errand, subject } = draw;
  const later = latest(day, draw.day);
  const save = async (): Promise<void> => {
    const made = await fetchAnswer('write-paper', { sort: 'draw-request', draw: row });
    if (made !== undefined) await saveFile(made);
  };
  const remove = async (): Promise<void> => {
    const reply = await perform('remove-cost', { what: 'draw', row }, { say: `Took draw ${number} away.` });
    if (reply.ok) go('costs');
  };
  return (
    <div className="costs-acts">
      <Button as={refused === 0 ? 'stamp' : 'plain'} onPress={() => void save()}>
        {refused === 0 ? 'Save the draw request' : 'Save the draw request as a draft'}
      </Button>
      {state === 'drawn up' ? (
        <Button
          disabled={refused > 0}
          onPress={() => void perform('draw', { row, asked: later }, { say: `Noted: draw ${number} asked for.` })}
        >
          It was asked for today
        </Button>
      ) : null}
      {state === 'asked for' ? (
        <Button
          onPress={() => void perform('draw', { row, paid: later }, { say: `Noted: draw ${number} paid as asked.` })}
        >
          The lender paid it today
        </Button>
      ) : null}
      {state === 'paid' ? null : <Button onPress={() => layOver({ slip: 'draw', row: draw })}>Change its sums</Button>}
      {errand === undefined ? null : (
        <a className="button plain" href={addressOf('errand', errand, subject)}>
          Papers that go along
        </a>
      )}
      {state === 'drawn up' ? (
        <Button as="word" onPress={() => void remove()}>
          take it away
        </Button>
      ) : null}
    </div>
  );
}

/** Why it can't be noted as asked for yet, and the way to say that it was all the same. */
function NotYet({ draw }: { readonly draw: DrawCheckAnswer }) {
  const day = useDay();
  const [asking, ask] = useState(false);
  const [reason, setReason] = useState('');
  const { state, number, draw: row, refused, lacks } = draw;
  if (state !== 'drawn up' || refused === 0) return null;
  const note = (): void =>
    void perform(
      'draw',
      { row, asked: latest(day, draw.day), anyway: reason.trim() },
      { say: `Noted: draw ${number} asked for.` },
    );
  return (
    <div className="costs-not-yet">
      <p className="small">
        It can’t be noted as asked for yet: {lacks}; what to do stands below.{' '}
        <Button as="word" small onPress={() => ask(!asking)}>
          the lender took it all the same
        </Button>
      </p>
      {asking ? (
        <div className="costs-acts under">
          <Field label="Why they took it" value={reason} onChange={setReason} autoFocus />
          <Button disabled={reason.trim() === ''} onPress={note}>
            Note that it was asked for
          </Button>
        </div>
      ) : null}
    </div>
  );
}

function Findings({ draw }: { readonly draw: DrawCheckAnswer }) {
  if (draw.findings.length === 0) {
    return (
      <p>
        Nothing is missing of what you noted: invoice, payment and waiver stand behind every sum. The lender’s word
        decides.
      </p>
    );
  }
  return (
    <div className="costs-findings">
      {draw.findings.map((finding) => (
        <FindingNote key={finding.say} finding={finding} open={draw.findings.length === 1} />
      ))}
    </div>
  );
}

/** One draw: what a lender would refuse of it, its sums, its schedule of values. */
export function OneDraw({ number }: { readonly number: string }) {
  const answer = useAnswer('draw-check', { draw: number });
  return (
    <Answered of={answer}>
      {(draw) => (
        <>
          <header>
            <div>
              <p className="small">
                <a href={addressOf('costs')}>Costs and draws</a>
              </p>
              <h1>Draw {draw.number}</h1>
              <p className="lead">
                Work done and material stored through {dayInWords(draw.day)}: {moneyInWords(draw.sums.due)} due.{' '}
                <DrawMark row={draw} />
              </p>
            </div>
            <Acts draw={draw} />
          </header>
          <NotYet draw={draw} />
          {draw.anyway === undefined ? null : (
            <p className="small">Asked for although something was missing: {draw.anyway}</p>
          )}
          <section className="costs-part" aria-labelledby="costs-refused">
            <header>
              <h2 id="costs-refused">What a lender would say</h2>
            </header>
            <Findings draw={draw} />
          </section>
          <section className="costs-part" aria-labelledby="costs-schedule">
            <header>
              <h2 id="costs-schedule">Schedule of values</h2>
            </header>
            <Schedule draw={draw} />
          </section>
          <section className="costs-part" aria-labelledby="costs-summary">
            <header>
              <h2 id="costs-summary">Sums</h2>
            </header>
            <Summary draw={draw} />
          </section>
        </>
      )}
    </Answered>
  );
}
