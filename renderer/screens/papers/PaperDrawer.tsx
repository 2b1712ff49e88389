import { useMemo } from 'react';
import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import { arrange, linesOf, passes } from './arrange-papers.ts';
import { DrawerLines, useSide } from './DrawerLines.tsx';
import { arrangements, keepDrawer, sieves, useDrawer } from './drawer-state.ts';

const emptySieve = {
  all: 'Nothing is kept yet.',
  'in hand': 'Nothing is in hand yet. What you keep from the table comes here.',
  'lapsing or lapsed': 'Nothing lapses soon, and nothing has lapsed.',
  'still to get': 'Nothing is still to get: every paper the way asks for has been kept.',
} as const;

function Drawer({ rows }: { readonly rows: readonly PaperRow[] }) {
  const { arrangement, sieve } = useDrawer();
  const { side, box } = useSide();
  const lines = useMemo(() => {
    const through = rows.filter((row) => passes(row, sieve));
    return linesOf(arrange(through, arrangement), side);
  }, [rows, sieve, arrangement, side]);
  return (
    <>
      <div className="papers-controls">
        <Choices
          label="Show"
          options={sieves.map((id) => ({
            id,
            title: `${id[0]?.toUpperCase()}${id.slice(1)} ${rows.filter((row) => passes(row, id)).length}`,
          }))}
          value={sieve}
          onChange={(id) => keepDrawer({ sieve: sieves.find((each) => each === id) ?? 'all', depth: 0 })}
        />
        <Choices
          label="Cards stand"
          options={arrangements.map((id) => ({ id, title: `${id[0]?.toUpperCase()}${id.slice(1)}` }))}
          value={arrangement}
          onChange={(id) =>
            keepDrawer({ arrangement: arrangements.find((each) => each === id) ?? 'by office', depth: 0 })
          }
        />
      </div>
      <div ref={box}>
        {lines.length === 0 ? (
          <p className="papers-none">{emptySieve[sieve]}</p>
        ) : (
          <DrawerLines lines={lines} side={side} arrangement={arrangement} />
        )}
      </div>
    </>
  );
}

function Beginning() {
  return (
    <div className="empty">
      <h2>No papers yet</h2>
      <p>
        Every paper of the house stands here on a card of its own: permits, plans, letters, certificates, with how long
        each is good and which office asks for it. Begin with what already lies in your drawer: the deed, the survey,
        the septic permit.
      </p>
      <a className="button stamp" href={addressOf('table')}>
        Lay papers on the table
      </a>
    </div>
  );
}

/** All papers as index cards behind their dividers. */
export function PaperDrawer() {
  const asked = useAnswer('papers', { wanted: true });
  return (
    <>
      <header>
        <div>
          <h1>Papers</h1>
          <p className="lead">Every paper the house has, and those it still needs.</p>
        </div>
      </header>
      <Answered of={asked}>{({ papers }) => (papers.length === 0 ? <Beginning /> : <Drawer rows={papers} />)}</Answered>
    </>
  );
}
