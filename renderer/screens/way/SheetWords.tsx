import { widthOf } from './measures.ts';
import type { SheetPlan } from './sheet-plan.ts';

interface PlateProps {
  readonly x: number;
  /** Foot of the letters. */
  readonly y: number;
  readonly words: string;
  readonly sort: string;
}

/** Words on a piece of blank paper: what runs through there passes behind it. */
function Plate({ x, y, words, sort }: PlateProps) {
  return (
    <g>
      <rect className="way-plate" x={x - 2} y={y - 12} width={widthOf(words) + 4} height={16} />
      <text className={sort} x={x} y={y}>
        {words}
      </text>
    </g>
  );
}

/** The days' words, drawn last: gates stand close together, and a line through a date makes another date of it. */
export function SheetWords({ plan }: { readonly plan: SheetPlan }) {
  const { months, baseline, flags, flagTop } = plan;
  return (
    <g>
      {months.map(({ x, words }) =>
        words === '' ? null : <Plate key={x} x={x + 4} y={baseline + 24} words={words} sort="way-month" />,
      )}
      {flags.map(({ sort, words, x, row }) => (
        <Plate key={sort} x={x + 6} y={flagTop + row * 18 + 13} words={words} sort={`way-flag ${sort}`} />
      ))}
    </g>
  );
}
