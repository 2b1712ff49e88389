import { useState } from 'react';
import type { CoverRow, TradeRow } from '../../../core/desk/contract/cost-answers.ts';
import { type Day, dayInWords } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { Button } from '../../kit/Button.tsx';
import { Mark, type MarkWord } from '../../kit/Mark.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { FirmSlip } from './FirmSlip.tsx';
import { NoticeSlip } from './NoticeSlip.tsx';
import { Strip } from './Strip.tsx';
import type { Axis } from './time-axis.ts';

const marks: Readonly<Record<CoverRow['state'], MarkWord>> = {
  covered: 'in hand',
  gap: 'lapsing',
  none: 'not asked for',
  undated: 'unreadable',
  'not needed': "doesn't apply",
};

const markSays: Readonly<Record<CoverRow['state'], string>> = {
  covered: 'in hand',
  gap: 'days missing',
  none: 'not in hand',
  undated: 'dates not noted',
  'not needed': "doesn't apply",
};

function Line({
  cover,
  row,
  axis,
  day,
}: {
  readonly cover: CoverRow;
  readonly row: TradeRow;
  readonly axis: Axis;
  readonly day: Day;
}) {
  const { title, state, say, gaps, number, paper, unsure } = cover;
  return (
    <li className="trades-line">
      <div className="name">
        {paper === undefined ? title : <a href={addressOf('papers', paper)}>{title}</a>}
        {number === undefined ? null : <span className="mono small pencil number">{number}</span>}
      </div>
      <Strip row={row} cover={cover} axis={axis} day={day} />
      <div className="say small">
        <Mark word={marks[state]} say={markSays[state]} />
        {state === 'covered' || state === 'not needed' ? <span className="pencil">{say}</span> : null}
        {gaps.map((gap) => (
          <span key={gap.from} className="gap-words">
            {gap.say}
          </span>
        ))}
        {unsure ? <span className="pencil">Whether it is asked for hangs on a question not answered yet.</span> : null}
      </div>
    </li>
  );
}

function daysWords({ from, to }: TradeRow): string {
  if (from === undefined) return 'first day not noted';
  return to === undefined ? `since ${dayInWords(from)}` : `${dayInWords(from)} to ${dayInWords(to)}`;
}

/** "3 conditional progress, unconditional final": each sort once, with how many there are. */
function waiversInWords({ waivers, firm }: TradeRow): string {
  const sorts = Map.groupBy(waivers, ({ kind, by }) => (by === firm ? kind : `${kind} (${by})`));
  return [...sorts].map(([say, all]) => (all.length === 1 ? say : `${all.length} ${say}`)).join(', ');
}

function Money({ row }: { readonly row: TradeRow }) {
  const { billed, paid, agreed, waivers, waiversMissing } = row;
  if (agreed === undefined && billed === 0) return null;
  const said = [
    agreed === undefined ? undefined : `agreed ${moneyInWords(agreed)}`,
    billed === 0 ? undefined : `billed ${moneyInWords(billed)}`,
    paid === 0 ? undefined : `paid ${moneyInWords(paid)}`,
  ].filter((each) => each !== undefined);
  const first = said.join(', ');
  return (
    <p className="small">
      <a href={addressOf('costs')}>{first.charAt(0).toUpperCase() + first.slice(1)}</a>
      {waivers.length === 0 ? '' : `; waivers in hand: ${waiversInWords(row)}`}
      {waiversMissing === 0
        ? '.'
        : `; ${waiversMissing === 1 ? 'one invoice waits' : `${waiversMissing} invoices wait`} for a waiver.`}
    </p>
  );
}

/** One firm as a ruled entry: who, when, what is in hand for each of its days, what to ask it for. */
export function FirmRow({ row, axis, day }: { readonly row: TradeRow; readonly axis: Axis; readonly day: Day }) {
  const [slip, setSlip] = useState<'firm' | 'notice'>();
  const { subject, firm, ask, notices, after, onSite, to } = row;
  return (
    <li className="trades-firm">
      <div className="who">
        <h3>{firm}</h3>
        <p className="small pencil">
          {daysWords(row)}
          {after === undefined ? '' : `, after ${after}`}
        </p>
        {onSite ? <p className="small trades-here">on site today</p> : null}
        <p className="acts">
          <Button as="word" small onPress={() => setSlip('firm')} label={`Another firm takes over from ${firm}`}>
            another firm takes over
          </Button>
          {to === undefined ? (
            <Button
              as="word"
              small
              label={`Last day today: ${firm}`}
              onPress={() =>
                void perform('end-firm', { firm: subject, day }, { say: 'Noted: today was the last day.' })
              }
            >
              last day today
            </Button>
          ) : null}
          <Button as="word" small onPress={() => setSlip('notice')} label={`A supplier gave notice: of ${firm}`}>
            a supplier gave notice
          </Button>
        </p>
      </div>
      <div className="what">
        <ul className="trades-lines">
          {row.cover.map((cover) => (
            <Line key={cover.title} cover={cover} row={row} axis={axis} day={day} />
          ))}
        </ul>
        {ask.length === 0 ? null : (
          <div className="trades-ask">
            <h4>Ask them for</h4>
            <ul>
              {ask.map((each) => (
                <li key={each}>{each}</li>
              ))}
            </ul>
          </div>
        )}
        {notices.map(({ notice, supplier, day: since, delivers, released }) => (
          <p key={notice} className="small">
            Notice of {supplier}
            {delivers === '' ? '' : ` (${delivers})`}, {dayInWords(since)}:{' '}
            {released
              ? 'its final waiver is in hand.'
              : 'when you pay, it can still claim a lien. Ask for its waiver too.'}{' '}
            <Button
              as="word"
              small
              label={`Take away the notice of ${supplier}`}
              onPress={() =>
                void perform(
                  'remove-cost',
                  { what: 'notice', row: notice },
                  { say: `Took the notice of ${supplier} away.` },
                )
              }
            >
              take away
            </Button>
          </p>
        ))}
        <Money row={row} />
      </div>
      {slip === 'firm' ? <FirmSlip leaving={row} onClose={() => setSlip(undefined)} /> : null}
      {slip === 'notice' ? <NoticeSlip row={row} onClose={() => setSlip(undefined)} /> : null}
    </li>
  );
}
