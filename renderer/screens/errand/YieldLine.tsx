import { Mark } from '../../kit/Mark.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';

function adds(kept: number): string {
  return kept > 0 ? 'Add another' : 'I have it: add it';
}

/** One paper they give you: kept already, or to be kept once you have it. */
export function YieldLine({ kind, title }: { readonly kind: string; readonly title: string }) {
  const papers = useAnswer('papers', { kind }).answer?.papers ?? [];
  const kept = papers.filter(({ paper, editions }) => paper !== undefined && editions.length > 0);
  return (
    <li className="errand-yield">
      <span className="slab">{title}</span>
      <span className="errand-row">
        {kept.map(({ row, paper, state, title: own }) => (
          <a key={row} href={addressOf('papers', paper ?? row)} aria-label={`${own}: ${state}`}>
            <Mark word={state} />
          </a>
        ))}
        <a href={addressOf('table', 'as', kind)} aria-label={`${adds(kept.length)}: ${title}`}>
          {adds(kept.length)}
        </a>
      </span>
    </li>
  );
}
