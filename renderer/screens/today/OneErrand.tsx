import type { BackRow, TodayErrand } from '../../../core/desk/contract/screen-answers.ts';
import type { OfficeCard } from '../../../core/desk/contract/shown-rows.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { Carry } from './Carry.tsx';
import { openOn, weekdayNamed } from './hours.ts';
import { bookingInWords, feeInWords, worstInWords } from './words.ts';

function addressOfErrand({ errand, subject }: TodayErrand): string {
  return addressOf('errand', errand, ...(subject === undefined ? [] : [subject]));
}

type WhereProps = Pick<OneErrandProps, 'errand' | 'number' | 'sameAs'>;
type Line = readonly [string, string | undefined];

function placeLines({ title, street, phone, hours, intakeUntil }: OfficeCard): readonly Line[] {
  const open = [hours, intakeUntil === undefined ? undefined : `papers taken until ${intakeUntil}`];
  return [
    ['where', [title, street].filter((part) => part !== undefined).join(', ')],
    ['phone', phone],
    ['open', open.filter((part) => part !== undefined).join('; ')],
  ];
}

/** Where to go, when they are there, who has to come: one line each, only what is known. */
function Where({ errand, number, sameAs }: WhereProps) {
  const { office, fee, feeNote } = errand;
  // Nobody goes to himself.
  if (office.sort === 'owner') return null;
  const { title, appear, appointment, payee, pays } = office;
  const place: readonly Line[] =
    sameAs === number ? placeLines(office) : [['where', `${title}, as for ${sameAs}: make it one trip`]];
  const rows: readonly Line[] = [
    ...place,
    ['who comes', appear],
    ['booking', bookingInWords(errand)],
    ['appointment', appointment],
    ['pay', [feeInWords(fee, payee, pays), feeNote].filter((part) => part !== undefined).join('; ')],
  ];
  return (
    <dl className="today-where">
      {rows.map(([name, said]) =>
        said === undefined || said === '' ? null : (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{said}</dd>
          </div>
        ),
      )}
    </dl>
  );
}

/** Told where the hours on file leave this weekday out: it would be a trip for nothing. */
function Closed({ office, day }: { readonly office: OfficeCard; readonly day: Day }) {
  if (office.hours === undefined || openOn(office.hours, day) !== false) return null;
  return (
    <p className="today-caution">
      By these hours they are not open today, {weekdayNamed(day)?.replace(/^./, (letter) => letter.toUpperCase())}
      {office.phone === undefined ? '' : `: call ${office.phone} before you go`}.
    </p>
  );
}

function Comments({ back }: { readonly back: BackRow }) {
  return (
    <ul className="today-comments" aria-label="What they want put right">
      {back.comments.map(({ comment, number, text }) => (
        <li key={comment}>
          <span className="mono">{number}</span> {text}
        </li>
      ))}
    </ul>
  );
}

export interface OneErrandProps {
  readonly errand: TodayErrand;
  readonly number: number;
  readonly day: Day;
  /** The first errand at this very office: itself, or one before it. */
  readonly sameAs: number;
  readonly back: BackRow | undefined;
}

/** One errand on the slip. */
export function OneErrand({ errand, number, day, sameAs, back }: OneErrandProps) {
  const worst = worstInWords(errand.findings);
  const { title, subjectTitle, why, caution, ask, state, settleFirst } = errand;
  const address = addressOfErrand(errand);
  return (
    <li className="today-errand">
      <span className="today-number" aria-hidden="true">
        {number}
      </span>
      <div className="today-what">
        <h3>
          <a href={address}>{subjectTitle === undefined ? title : `${title}: ${subjectTitle}`}</a>{' '}
          {state === 'sent back' ? <Mark word="sent back" say={back?.cameBack} /> : null}
        </h3>
        {back === undefined || back.comments.length === 0 ? null : <Comments back={back} />}
        <Where errand={errand} number={number} sameAs={sameAs} />
        {sameAs === number ? <Closed office={errand.office} day={day} /> : null}
        {worst === undefined ? null : (
          <p className={`finding ${worst.weight.replaceAll(' ', '-')}`}>
            <span className="weight">{worst.weight}</span>
            {worst.say}{' '}
            <a className="no-print" href={address}>
              See which
            </a>
          </p>
        )}
        {settleFirst.map((say) => (
          <p key={say} className="today-caution">
            <strong>Settle first, or this may be for nothing:</strong> {say}
          </p>
        ))}
        <Carry errand={errand} first={number === 1} />
        {errand.onSite.length === 0 ? null : <p className="small">Ready on the site: {errand.onSite.join(', ')}.</p>}
        {ask.length === 0 ? null : (
          <p className="small">
            {errand.office.sort === 'owner' ? 'Look for' : 'Ask there'}: {ask.join(' ')}
          </p>
        )}
        {caution === undefined ? null : <p className="today-caution small">{caution}</p>}
        <p className="small pencil">{why}</p>
      </div>
    </li>
  );
}
