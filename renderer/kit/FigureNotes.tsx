import type { FigureRow } from '../../core/desk/contract/screen-answers.ts';
import { addressOf } from '../state/place.ts';
import './figures.css';

/** Something about it wants a second look: the paper says otherwise, a number is unusual, a rule is broken. */
export function wantsLook({ printed, unusual, parts, rules, otherWay }: FigureRow): boolean {
  return (
    unusual ||
    parts.some((part) => part.unusual) ||
    rules.some(({ holds }) => holds === false) ||
    (otherWay === undefined && printed.some(({ agrees }) => agrees === false))
  );
}

type Printed = FigureRow['printed'][number];

function agreeWords({ agrees }: Printed, otherWay: string | undefined): string {
  if (agrees === true) return 'agrees with ours';
  if (agrees === undefined) return 'ours can’t be reckoned';
  return otherWay === undefined ? 'ours differs: look at both again' : `agrees the other usual way: ${otherWay}`;
}

function PrintedLine({ printed, otherWay }: { readonly printed: Printed; readonly otherWay: string | undefined }) {
  const { from, words, edition, agrees } = printed;
  const tone = agrees === true || (agrees === false && otherWay !== undefined) ? 'good' : agrees === false ? 'off' : '';
  return (
    <p>
      {edition === undefined ? from : <a href={addressOf('papers', edition, edition)}>{from}</a>}:{' '}
      <strong>{words}</strong> <span className={`figure-word ${tone}`}>{agreeWords(printed, otherWay)}</span>
    </p>
  );
}

function Part({ part }: { readonly part: FigureRow['parts'][number] }) {
  const { title, words, unusual } = part;
  return (
    <li>
      {title}: {words}
      {unusual ? <span className="figure-word off"> unusual: look whether a digit was misread</span> : null}
    </li>
  );
}

function limitWords(within: boolean | undefined): string {
  if (within === undefined) return '';
  return within ? 'within it' : 'outside it';
}

/** One sum done again with what the papers say. */
function FigureNote({ row }: { readonly row: FigureRow }) {
  const { title, words, unusual, parts, printed, otherWay, limits, rules, source, caution } = row;
  const missing = parts.filter(({ words: part }) => part === undefined).map(({ title: part }) => part);
  return (
    <li className={wantsLook(row) ? 'figure off' : 'figure'}>
      <h4>{title}</h4>
      <p>
        Reckoned here: <strong>{words ?? 'not yet, a number is missing'}</strong>
        {unusual ? <span className="figure-word off"> unusual: look at the numbers again</span> : null}
      </p>
      {printed.map((one) => (
        <PrintedLine key={one.from} printed={one} otherWay={otherWay} />
      ))}
      {rules.map(({ say, words: told, holds, basis }) => (
        <p key={say}>
          <span className={`figure-word ${holds === true ? 'good' : 'off'}`}>{told}</span> {say}{' '}
          <span className="pencil">{basis}.</span>
        </p>
      ))}
      <ul className="small">
        {parts
          .filter(({ words: part }) => part !== undefined)
          .map((part) => (
            <Part key={part.title} part={part} />
          ))}
        {missing.length === 0 ? null : <li>Not noted yet: {missing.join(', ')}.</li>}
        {words === undefined
          ? null
          : limits.map(({ words: limit, source: from, within }) => (
              <li key={limit}>
                To compare, {limit} ({from}). {within === undefined ? null : <b>Ours is {limitWords(within)}.</b>}
              </li>
            ))}
      </ul>
      <p className="small pencil">
        {source}. {caution}
      </p>
    </li>
  );
}

/** Sums done again: never a design; which number and which limit count, the licensed person and the office say. */
export function FigureNotes({ rows }: { readonly rows: readonly FigureRow[] }) {
  return (
    <ul className="figures">
      {rows.map((row) => (
        <FigureNote key={row.figure} row={row} />
      ))}
    </ul>
  );
}
