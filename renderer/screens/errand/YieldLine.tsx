import { Mark } from '../../kit/Mark.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';

function adds(kept: number): string {
  return kept > 0 ? 'Add another' : 'I have it: add it';
}

interface YieldProps {
  readonly kind: string;
  readonly title: string;
  /** Why the one in hand settles nothing: the result they want is still to come. */
  readonly untold?: string | undefined;
}

/** One paper they give you: kept already, or to be kept once you have it; one that says "not passed" fills nothing. */
export function YieldLine({ kind, title, untold }: YieldProps) {
  const papers = useAnswer('papers', { kind }).answer?.papers ?? [];
  const kept = papers.filter(({ paper, editions }) => paper !== undefined && editions.length > 0);
  const only = kept.length === 1 ? kept[0]?.paper : undefined;
  return (
    <li className="errand-yield">
      <span className="slab">{only === undefined ? title : <a href={addressOf('papers', only)}>{title}</a>}</span>
      <span className="errand-row">
        {untold === undefined ? null : <Mark word="not asked for" />}
        {kept.map(({ row, paper, state, title: own }) => (
          <a
            key={row}
            href={addressOf('papers', paper ?? row)}
            aria-label={`${own}: ${untold === undefined ? state : 'look at it'}`}
          >
            {untold === undefined ? <Mark word={state} /> : 'the one in hand'}
          </a>
        ))}
        <a href={addressOf('table', 'as', kind)} aria-label={`${adds(kept.length)}: ${title}`}>
          {adds(kept.length)}
        </a>
      </span>
      {untold === undefined ? null : <span className="small">{untold}</span>}
    </li>
  );
}
