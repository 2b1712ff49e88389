import { useMemo, useState } from 'react';
import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import { BlackOutBar } from './BlackOutBar.tsx';
import type { DrawnPlace } from './drawn-places.ts';
import { PageReader } from './PageReader.tsx';
import { PaperCard } from './PaperCard.tsx';
import { RecordCard } from './RecordCard.tsx';
import type { PointedAt } from './reader-pages.ts';
import { WantedCard } from './WantedCard.tsx';
import './one-paper.css';

function NoPages({ paper }: { readonly paper: PagesAnswer }) {
  return (
    <div className="empty">
      <h2>{paper.physicalOnly ? 'Held on paper only' : 'No pages here'}</h2>
      <p>
        {paper.physicalOnly
          ? 'This one is noted as held in your hand: there are no pages of it in the lot, and it travels beside the packet. A photo of it, kept as well, would be there when the sheet is not.'
          : 'The pages of this edition are no longer in the lot.'}
      </p>
      <a className="button" href={addressOf('table', 'as', paper.kind)}>
        Lay a scan or photo on the table
      </a>
    </div>
  );
}

function Spread({ paper, page }: { readonly paper: PagesAnswer; readonly page: number }) {
  const begin = useMemo(
    (): PointedAt => ({ page: Math.max(0, Math.min(paper.pages.length, page) - 1) }),
    [paper.pages.length, page],
  );
  const [pointed, point] = useState<PointedAt>();
  const [drawn, draw] = useState<readonly DrawnPlace[]>();
  const { title, subjectTitle, office, pages } = paper;
  return (
    <>
      <header>
        <h1>{title}</h1>
        <p className="lead">
          {[subjectTitle, office.title].filter((each) => each !== undefined && each !== '').join(' · ')}
          {' · '}
          <a href={addressOf('papers')}>All papers</a>
        </p>
      </header>
      {drawn === undefined ? null : <BlackOutBar paper={paper} places={drawn} onPlaces={draw} />}
      <div className="paper-spread">
        <div className="paper-pages">
          {pages.length === 0 ? (
            <NoPages paper={paper} />
          ) : (
            <PageReader
              pages={pages}
              title={title}
              at={pointed ?? begin}
              drawing={drawn === undefined ? undefined : { places: drawn, onPlaces: draw }}
            />
          )}
        </div>
        <RecordCard paper={paper} onPoint={point} onBlackOut={() => draw([])} />
      </div>
    </>
  );
}

/** A kind may stand for several papers, one per firm: then they are listed; else what went wrong is said. */
function NotOne({ said, error }: { readonly said: string; readonly error: ErrorShape }) {
  const papers = useAnswer('papers', { wanted: true }).answer?.papers ?? [];
  const rows = papers.filter(({ kind }) => kind === said);
  const [first] = rows;
  return (
    <>
      <header>
        <h1>{first?.title ?? 'This paper can’t be shown'}</h1>
        <p className="lead">
          <a href={addressOf('papers')}>All papers</a>
        </p>
      </header>
      {first === undefined ? (
        <Trouble error={error} />
      ) : (
        <div className="paper-several">
          {rows.map((row) =>
            row.paper === undefined ? (
              <WantedCard key={row.row} row={row} />
            ) : (
              <PaperCard key={row.row} row={row} sayOffice />
            ),
          )}
        </div>
      )}
    </>
  );
}

export interface OnePaperProps {
  readonly paper: string;
  readonly edition?: string | undefined;
  /** 1-based. */
  readonly page: number;
}

/** One paper: its pages large, and beside them everything known of it. */
export function OnePaper({ paper, edition, page }: OnePaperProps) {
  const asked = useAnswer('pages', { edition: edition ?? paper });
  if (asked.error !== undefined) return <NotOne said={paper} error={asked.error} />;
  return (
    <Answered of={asked}>{(answer) => <Spread paper={answer} page={Number.isFinite(page) ? page : 1} />}</Answered>
  );
}
