import { useState } from 'react';
import { dayWithWeekday } from '../../core/vocabulary/days.ts';
import { Button } from '../kit/Button.tsx';
import { DayField } from '../kit/DayField.tsx';
import { Slip } from '../kit/Slip.tsx';
import { useAnswer } from '../state/asked.ts';
import { lookAt } from '../state/lot.ts';
import { useDay, useLot } from '../state/session.ts';

/** The lot's title block at the foot of the margin, as on a drawing: which lot, where, as of which day. */
export function TitleBlock() {
  const { title, day: other, host } = useLot();
  const day = useDay();
  const card = useAnswer('read-lot', {}).answer;
  const [asking, ask] = useState(false);
  const last = (sort: 'place' | 'parcel'): string | undefined =>
    card?.identities.findLast((identity) => identity.sort === sort)?.text;
  const place = last('place');
  const parcel = last('parcel');
  return (
    <div className="title-block">
      <dl>
        <div>
          <dt>lot</dt>
          <dd className="slab">{card?.title ?? title}</dd>
        </div>
        {place === undefined ? null : (
          <div className="where">
            <dt>place</dt>
            <dd>{place}</dd>
          </div>
        )}
        {parcel === undefined ? null : (
          <div className="where">
            <dt>parcel</dt>
            <dd className="mono">{parcel}</dd>
          </div>
        )}
        <div className={other === undefined ? '' : 'other-day'}>
          <dt>{other === undefined ? 'today' : 'read as of'}</dt>
          <dd>
            {dayWithWeekday(day)}{' '}
            <Button as="word" small onPress={() => ask(true)} label="Look at another day">
              another day
            </Button>
          </dd>
        </div>
      </dl>
      <Slip
        title="Look at another day"
        open={asking}
        onClose={() => ask(false)}
        foot={
          <>
            <Button as="stamp" onPress={() => ask(false)}>
              Done
            </Button>
            <Button
              disabled={other === undefined}
              onPress={() => {
                lookAt(undefined);
                ask(false);
              }}
            >
              Back to today{host === undefined ? '' : `, ${dayWithWeekday(host.today)}`}
            </Button>
          </>
        }
      >
        <p>
          Everything is read as of this day: what lapses, where you can go, what an office will say. Choose the day of a
          visit to see how things will stand then.
        </p>
        <DayField label="Day" value={day} onChange={(chosen) => chosen !== undefined && lookAt(chosen)} />
      </Slip>
    </div>
  );
}
