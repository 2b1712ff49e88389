import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { beginsOf } from '../../kit/begins.ts';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { markSays, pagesInWords } from './state-words.ts';

/** The edition that counts, else the newest. */
function shownEdition({ editions }: PaperRow): PaperRow['editions'][number] | undefined {
  return editions.find(({ current }) => current) ?? editions.at(-1);
}

/** Not known is not the same as without an end. */
function noEnd({ undated }: PaperRow): string {
  return undated === undefined ? 'no end stated' : `not known: ${undated}`;
}

function Lines({ row }: { readonly row: PaperRow }) {
  const shown = shownEdition(row);
  const number = shown?.number ?? '';
  const begins = beginsOf(row);
  return (
    <dl>
      <div>
        <dt>number</dt>
        <dd className={number === '' ? 'pencil' : 'mono'}>{number === '' ? 'none' : number}</dd>
      </div>
      <div>
        <dt>{row.issuedDay === undefined && begins !== undefined ? 'in force from' : 'issued'}</dt>
        <dd className={begins === undefined ? 'pencil' : ''}>
          {begins === undefined ? 'no date' : dayInWords(begins)}
        </dd>
      </div>
      <div>
        <dt>good through</dt>
        <dd className={row.goodThroughDay === undefined ? 'pencil' : ''}>
          {row.goodThroughDay === undefined ? noEnd(row) : dayInWords(row.goodThroughDay)}
        </dd>
      </div>
      <div>
        <dt>pages</dt>
        <dd>{shown === undefined ? 'none yet' : pagesInWords(shown.pages)}</dd>
      </div>
    </dl>
  );
}

export interface PaperCardProps {
  readonly row: PaperRow;
  /** Said on the card where the divider doesn't say it already. */
  readonly sayOffice: boolean;
}

/** A kept paper as an index card; pressing anywhere on it opens the paper. */
export function PaperCard({ row, sayOffice }: PaperCardProps) {
  const count = row.editions.length;
  const { revision } = shownEdition(row) ?? {};
  const called = revision === undefined ? '' : `revision ${revision}`;
  const beside = [
    row.subject,
    sayOffice ? row.office : '',
    called,
    row.spent ? 'nothing asks for it any more' : '',
    count > 1 ? `${count} editions` : '',
  ]
    .filter((part) => part !== undefined && part !== '')
    .join(' · ');
  return (
    <article className={row.spent ? 'papers-card spent' : 'papers-card'}>
      <header>
        <h3 className="slab">
          <a href={addressOf('papers', row.paper ?? '')}>{row.title}</a>
        </h3>
        <Mark word={row.state} say={markSays(row)} quiet={row.spent} />
      </header>
      <Lines row={row} />
      {beside === '' ? null : <p className="small papers-beside">{beside}</p>}
    </article>
  );
}
