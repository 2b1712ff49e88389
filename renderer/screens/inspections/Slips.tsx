import { useState } from 'react';
import type { InspectionRow } from '../../../core/desk/contract/screen-answers.ts';
import { type Day, dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { OtherwiseSlip } from '../../kit/OtherwiseSlip.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { VisitSlip } from '../../kit/VisitSlip.tsx';
import { perform } from '../../state/doing.ts';
import { putAway, useInspectionsView } from './inspections-store.ts';
import { bookingInWords, titleOf } from './words.ts';

/** The day agreed with them; it stands in the calendar and on the day's sheet. */
function BookSlip({ row }: { readonly row: InspectionRow }) {
  const { errand, subject, booked, booking, earliest } = row;
  const [day, setDay] = useState<Day | undefined>(booked?.day ?? booking?.soonest ?? earliest);
  const [note, setNote] = useState('');
  const title = titleOf(row);
  const act = async (): Promise<void> => {
    if (day === undefined) return;
    const said = note.trim() === '' ? {} : { note: note.trim() };
    const visit = { errand, subject, visit: booked?.visit, day, state: 'planned' as const, ...said };
    const reply = await perform('visit', visit, { say: `${title}: booked for ${dayWithWeekday(day)}.` });
    if (reply.ok) putAway();
  };
  return (
    <Slip
      title={booked === undefined ? 'A day you booked' : 'Another day'}
      open
      onClose={putAway}
      foot={
        <Button as="stamp" disabled={day === undefined} onPress={() => void act()}>
          Note it
        </Button>
      }
    >
      <p className="slab">{title}</p>
      {booking === undefined ? null : <p>{bookingInWords(booking, row.waitsFor.length > 0)}</p>}
      <div className="amend-pair">
        <DayField label="They come on" value={day} onChange={setDay} />
        <Field
          label="Time, name, number"
          value={note}
          onChange={setNote}
          placeholder="for example: before noon, no. 4417"
        />
      </div>
      <p className="small pencil">Lotfile books nothing: call them, then note what was agreed.</p>
    </Slip>
  );
}

/** Whatever slip lies over the screen just now. */
export function Slips() {
  const slip = useInspectionsView((state) => state.slip);
  if (slip === undefined) return null;
  switch (slip.slip) {
    case 'book':
      return <BookSlip row={slip.row} />;
    case 'outcome':
      return <VisitSlip about={{ ...slip.row, title: titleOf(slip.row) }} onClose={putAway} />;
    case 'held here':
      return <OtherwiseSlip row={slip.rule} onClose={putAway} />;
  }
}
