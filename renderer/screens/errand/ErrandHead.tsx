import type { ReactNode } from 'react';
import type { WayAnswer } from '../../../core/desk/contract/answers.ts';
import { dayWithWeekday, spanInWords } from '../../../core/vocabulary/days.ts';
import type { WayStop } from '../../../core/vocabulary/finding.ts';
import { basisInWords } from '../../../core/vocabulary/in-words.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import type { Errand } from '../../../core/vocabulary/practice.ts';
import { addressOf } from '../../state/place.ts';
import { errandTitle, type Sight } from './errand-model.ts';

type Row = readonly [string, ReactNode];

function feeOf({ fee, feeNote }: Errand): string | undefined {
  const money = fee === undefined ? undefined : fee === 0 ? 'none' : moneyInWords(fee);
  const words = [money, feeNote].filter((part) => part !== undefined);
  return words.length === 0 ? undefined : words.join('; ');
}

function takesOf({ takes }: Errand): string | undefined {
  if (takes === undefined) return undefined;
  const [from, to] = [spanInWords(takes.from), spanInWords(takes.to)];
  return from === to ? from : `${from} to ${to}`;
}

function phoneLink(phone: string | undefined): ReactNode {
  return phone === undefined ? undefined : <a href={`tel:${phone.replaceAll(/[^\d+]/g, '')}`}>{phone}</a>;
}

function Facts({ rows, label }: { readonly rows: readonly Row[]; readonly label: string }) {
  return (
    <dl className="errand-facts" aria-label={label}>
      {rows
        .filter(([, value]) => value !== undefined && value !== '')
        .map(([name, value]) => (
          <div key={name}>
            <dt>{name}</dt>
            <dd>{value}</dd>
          </div>
        ))}
    </dl>
  );
}

function List({ title, items }: { readonly title: string; readonly items: readonly string[] }) {
  if (items.length === 0) return null;
  return (
    <div>
      <h3>{title}</h3>
      <ul className="errand-list">
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    </div>
  );
}

function Waits({ sight, way, stop }: HeadProps) {
  if (stop === undefined || sight.answer.reading.state !== "can't go yet" || stop.waitsFor.length === 0) return null;
  const stopOf = (errand: string) => way?.stops.find((one) => one.errand === errand);
  return (
    <section className="errand-waits">
      <h2>First these, then this one</h2>
      <ul>
        {stop.waitsFor.map((errand) => {
          const before = stopOf(errand);
          const day = before?.done ?? before?.earliest;
          return (
            <li key={errand}>
              <a href={addressOf('errand', errand)}>{before?.title ?? errandTitle(sight.practice, errand)}</a>
              <span className="pencil">
                {before === undefined ? '' : `, ${before.office}`}
                {day === undefined ? '' : `, back by about ${dayWithWeekday(day)}`}
              </span>
            </li>
          );
        })}
      </ul>
      {stop.earliest === undefined ? null : (
        <p>
          You can go on <strong>{dayWithWeekday(stop.earliest)}</strong> at the earliest.
        </p>
      )}
    </section>
  );
}

interface HeadProps {
  readonly sight: Sight;
  readonly way: WayAnswer | undefined;
  readonly stop: WayStop | undefined;
}

/** The office as one goes there, what to take along and ask, what to mind, and what waits before it. */
export function ErrandHead({ sight, way, stop }: HeadProps) {
  const { errand, office, reading } = sight.answer;
  const ask = [errand.appear ?? office.appear, errand.appointment ?? office.appointment];
  return (
    <div className="errand-head">
      <div className="errand-office">
        <Facts
          label="Where and when"
          rows={[
            ['go to', <strong key="office">{office.title}</strong>],
            ['street', office.street],
            ['phone', phoneLink(office.phone)],
            ['hours', office.hours],
            ['papers in until', office.intakeUntil],
            ['read for', dayWithWeekday(reading.day)],
          ]}
        />
        <Facts
          label="Who comes, and what it costs"
          rows={[
            ['who must appear', ask[0]],
            ['appointment', ask[1]],
            ['fee', feeOf(errand) ?? 'not known: ask'],
            ['payable to', office.payee],
            ['how paid', office.pays],
            ['it takes', takesOf(errand)],
            ['who says so', basisInWords(errand.basis)],
          ]}
        />
        <div className="errand-lists">
          <List title="Take along" items={errand.bring} />
          <List title="Ask them" items={errand.ask} />
        </div>
      </div>
      {errand.caution === undefined ? null : (
        <p className="errand-caution">
          <strong>Mind:</strong> {errand.caution}
        </p>
      )}
      <Waits sight={sight} way={way} stop={stop} />
    </div>
  );
}
