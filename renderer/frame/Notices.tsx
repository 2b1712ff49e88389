import { Button } from '../kit/Button.tsx';
import { Told } from '../kit/Told.tsx';
import { stopWork, useWork, type Work } from '../state/doing.ts';

function seconds(milliseconds: number): string {
  const whole = Math.max(1, Math.round(milliseconds / 1000));
  return whole < 90 ? `${whole} s` : `${Math.round(whole / 60)} min`;
}

/** How much longer, guessed from the pace so far; nothing until there is a pace. */
function left({ done, of, since }: Work): string {
  if (done === 0 || of === 0) return '';
  const spent = Date.now() - since;
  return spent < 2000 ? '' : `, about ${seconds((spent / done) * (of - done))} left`;
}

function WorkNotice({ work }: { readonly work: Work }) {
  const share = work.of === 0 ? 0 : work.done / work.of;
  return (
    <div className="notice work">
      <div className="row">
        <strong>{work.title}</strong>
        <Button small disabled={work.stopping} onPress={() => stopWork(work.id)}>
          {work.stopping ? 'Stopping ...' : 'Stop'}
        </Button>
      </div>
      <p className="small">
        {work.what === '' ? 'Beginning ...' : work.what}
        {work.of > 1 ? `, ${work.done} of ${work.of}${left(work)}` : ''}
      </p>
      <div
        className="gauge"
        role="progressbar"
        aria-label={work.title}
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.round(share * 100)}
      >
        <div style={{ width: `${Math.round(share * 100)}%` }} />
      </div>
    </div>
  );
}

/** Long work and what was told, at the lower right; read out by screen readers as it comes. A slip shows it itself. */
export function Notices() {
  const work = useWork((state) => state.work);
  return (
    <section className="notices" aria-label="Notices" aria-live="polite">
      {Object.values(work).map((one) => (
        <WorkNotice key={one.id} work={one} />
      ))}
      <Told on="sheet" />
    </section>
  );
}
