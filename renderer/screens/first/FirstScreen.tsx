import { Legend } from '../../frame/Legend.tsx';
import { useLot } from '../../state/session.ts';
import './first.css';
import { LotList } from './LotList.tsx';
import { NewLot } from './NewLot.tsx';
import { RestoreBundle } from './RestoreBundle.tsx';
import { SampleOffer } from './SampleOffer.tsx';
import { SitePlan } from './SitePlan.tsx';

/** The first page: what this is for, and the ways in. */
export function FirstScreen() {
  const host = useLot((state) => state.host);
  const any = host !== undefined && host.lots.length + host.found.length > 0;
  return (
    <main className="first" id="sheet" tabIndex={-1}>
      <div className="say">
        <h1>Lotfile</h1>
        <p className="promise">Nobody makes the same trip twice.</p>
        <p>
          You are building your own house on a country lot. A dozen offices stand between raw land and an occupied,
          insured house, and each acts only when it is shown papers the others issued.
        </p>
        <p>
          Lotfile keeps those papers, tells you what an office will say before you drive there, and assembles the packet
          you hand over.
        </p>
        <p className="small pencil">
          Your county and licensed people decide. Lotfile shows what stands in your papers and on whose word a rule
          rests. Nothing leaves this computer.
        </p>
        <SitePlan />
      </div>
      <div className="choose">
        {any ? <LotList host={host} /> : null}
        <NewLot />
        <RestoreBundle />
        <SampleOffer />
        {host === undefined || any ? null : <LotList host={host} />}
      </div>
      <div className="foot">
        <Legend />
      </div>
    </main>
  );
}
