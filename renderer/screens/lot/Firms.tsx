import { useState } from 'react';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import { Button } from '../../kit/Button.tsx';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';
import { FirmSlip } from './FirmSlip.tsx';

function days({ from, to }: Subject): string {
  if (from === undefined) return to === undefined ? 'days not said' : `until ${dayInWords(to)}`;
  return to === undefined ? `since ${dayInWords(from)}` : `${dayInWords(from)} to ${dayInWords(to)}`;
}

function nameOf({ firm, title }: Subject): string {
  return firm ?? title;
}

/** Who works on the lot and from when to when: papers are kept per firm, and cover is checked for each day. */
export function Firms({ subjects }: { readonly subjects: readonly Subject[] }) {
  const [open, setOpen] = useState<Subject | 'new'>();
  const day = useDay();
  const firms = subjects.filter(({ sort }) => sort === 'engagement');
  return (
    <section className="lot-card">
      <header>
        <h2>Firms on the job</h2>
        <p className="small">Licence and cover are asked for, firm by firm.</p>
      </header>
      {firms.length === 0 ? (
        <p className="lot-none">None yet. Note a firm when you hire it, before it first comes.</p>
      ) : (
        <ul className="lot-rows">
          {firms.map((firm) => (
            <li key={firm.id}>
              <span className="pencil">{firm.trade ?? firm.title}</span>
              <span>
                {nameOf(firm)} <span className="small pencil">{days(firm)}</span>
              </span>
              <span className="acts">
                <Button as="word" small label={`Correct ${nameOf(firm)}`} onPress={() => setOpen(firm)}>
                  correct
                </Button>
                {firm.to === undefined ? (
                  <Button
                    as="word"
                    small
                    label={`note its last day, today: ${nameOf(firm)}`}
                    onPress={() =>
                      void perform(
                        'end-firm',
                        { firm: firm.id, day },
                        { say: `${nameOf(firm)}: ${dayInWords(day)} was the last day.` },
                      )
                    }
                  >
                    note its last day, today
                  </Button>
                ) : null}
              </span>
            </li>
          ))}
        </ul>
      )}
      <div className="lot-add">
        <Button onPress={() => setOpen('new')}>Add a firm</Button>
      </div>
      {open === undefined ? null : (
        <FirmSlip firm={open === 'new' ? undefined : open} onClose={() => setOpen(undefined)} />
      )}
    </section>
  );
}
