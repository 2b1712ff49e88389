import { type ReactNode, useState } from 'react';
import { FileTrigger } from 'react-aria-components/FileTrigger';
import type { CalendarAnswer } from '../../../core/desk/contract/written-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { LastBackup } from '../../kit/LastBackup.tsx';
import { useAnswer } from '../../state/asked.ts';
import { fetchAnswer } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import { CalendarSlip } from './CalendarSlip.tsx';
import { MergeSlip } from './MergeSlip.tsx';
import { backUp, type Looked, lookInto, writeHouseRecord } from './take-over.ts';

function Row({
  say,
  more,
  children,
}: {
  readonly say: string;
  readonly more?: ReactNode;
  readonly children: ReactNode;
}) {
  return (
    <li>
      <p>
        {say} {more}
      </p>
      {children}
    </li>
  );
}

/** What leaves the lot, and what comes from another computer. */
export function GoingOut() {
  const card = useAnswer('read-lot', {}).answer;
  const [dates, setDates] = useState<CalendarAnswer>();
  const [looked, setLooked] = useState<Looked>();
  const calendar = async (): Promise<void> => {
    const made = await fetchAnswer('calendar', {});
    if (made === undefined) return;
    await saveFile(made);
    setDates(made);
  };
  const look = async (files: readonly File[]): Promise<void> => {
    const [file] = files;
    if (file !== undefined) setLooked(await lookInto(file));
  };
  return (
    <section className="history-out" aria-labelledby="history-out">
      <h2 id="history-out">Out and in</h2>
      <ul>
        <Row
          say="One file with everything in this lot, read back before you get it: a backup, or for your other computer."
          more={card === undefined ? null : <LastBackup backup={card.backup} />}
        >
          <Button onPress={() => void backUp()}>Back up as a bundle</Button>
        </Row>
        <Row say="Take over what is new in a bundle of this lot. What was changed on both sides is laid side by side for you to choose.">
          <FileTrigger onSelect={(files) => void look([...(files ?? [])])}>
            <Button>Take over from a bundle</Button>
          </FileTrigger>
        </Row>
        <Row say="Every lapse, last day to ask, booked visit and comment to answer, with alarms. Opened again later, your calendar moves its dates instead of doubling them.">
          <Button onPress={() => void calendar()}>Put my dates into my calendar</Button>
        </Row>
        <Row say="Plain folders, one PDF of all for the phone, and an index that opens in any browser without this program.">
          <Button onPress={() => void writeHouseRecord()}>Write the house record</Button>
        </Row>
      </ul>
      {dates === undefined ? null : <CalendarSlip answer={dates} onClose={() => setDates(undefined)} />}
      {looked === undefined ? null : <MergeSlip looked={looked} onClose={() => setLooked(undefined)} />}
    </section>
  );
}
