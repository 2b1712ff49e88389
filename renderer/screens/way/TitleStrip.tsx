import type { ReactNode } from 'react';
import type { WayAnswer } from '../../../core/desk/contract/answers.ts';
import { dayInWords, daysBetween, dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { moneyInWords } from '../../../core/vocabulary/money.ts';
import { addressOf } from '../../state/place.ts';
import type { WayModel } from './model.ts';

function Box({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Reach({ finish, target }: WayModel) {
  if (target === undefined) return <a href={addressOf('lot')}>Set the day you hope to move in</a>;
  if (finish === undefined) return <>{dayInWords(target)}; whether the way reaches it is not known</>;
  const left = daysBetween(finish, target);
  return (
    <>
      <strong>{dayInWords(target)}</strong>,{' '}
      {left < 0 ? <span className="way-late">missed by {-left} days</span> : `reached, ${left} days to spare`}
      <span className="small pencil"> counting the offices’ time alone, not yours for building</span>
    </>
  );
}

/** The title strip of the sheet: what the whole way comes to. */
export function TitleStrip({ way, model }: { readonly way: WayAnswer; readonly model: WayModel }) {
  const { feesKnown, feesUnknown, finish, today, beginWith, restarts } = way;
  const settled = model.stations.filter(({ state }) => state === 'settled').length;
  const named = (errand: string): string => model.stations.find(({ row }) => row.errand === errand)?.title ?? errand;
  const kind = (id: string): string => model.lives.find((life) => life.kind === id)?.title ?? id;
  return (
    <>
      <dl className="way-strip">
        <Box name="errands">
          <strong>{settled}</strong> of {model.stations.length} settled, {today.length} for today
        </Box>
        <Box name="as it stands, done">
          <strong>{finish === undefined ? 'not known' : dayInWords(finish)}</strong>
        </Box>
        <Box name="you hope to move in">{Reach(model)}</Box>
        <Box name="fees ahead">
          {feesKnown === 0 && feesUnknown > 0 ? null : <strong>{moneyInWords(feesKnown)}</strong>}
          {feesUnknown === 0 ? '' : `${feesKnown === 0 ? '' : ', and '}${feesUnknown} not known`}
        </Box>
      </dl>
      {beginWith.length === 0 ? null : (
        <p className="way-told">
          <strong>Begin with:</strong> {beginWith.join(', ')}. No errand brings {beginWith.length === 1 ? 'it' : 'them'}
          , and errands wait.
        </p>
      )}
      {restarts.map(({ kind: of, errand, by }) => (
        <p className="way-told" key={`${of} ${errand}`}>
          <strong>{kind(of)}</strong> lapses when work lies idle.{' '}
          <a href={addressOf('errand', errand)}>{named(errand)}</a> restarts its clock for the least money: settle it by{' '}
          <strong>{dayWithWeekday(by)}</strong>.
        </p>
      ))}
    </>
  );
}
