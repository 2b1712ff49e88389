import { Mark } from '../../kit/Mark.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';

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
        <a href={addressOf('table', 'as', kind)} aria-label={`Keep ${kept.length > 0 ? 'another' : 'it'}: ${title}`}>
          {kept.length > 0 ? 'Keep another' : 'Keep it'}
        </a>
        {kept.length > 0 ? null : <span className="pencil small">once you have it</span>}
      </span>
    </li>
  );
}
