import type { CoverRow, TradeRow } from '../../../core/desk/contract/cost-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { type Axis, placeOf, type Stretch, stretchOf } from './time-axis.ts';

function along({ left, width }: Stretch): { readonly left: string; readonly width: string } {
  return { left: `${left}%`, width: `${width}%` };
}

export interface StripProps {
  readonly row: Pick<TradeRow, 'from' | 'to'>;
  readonly cover: CoverRow;
  readonly axis: Axis;
  readonly day: Day;
}

/**
 * One line of cover over the days on site: the site days as an open band, what is in hand as a hatched strip, days
 * without it as a broken red line. The words beside it say the same.
 */
export function Strip({ row, cover, axis, day }: StripProps) {
  const site = row.from === undefined ? undefined : stretchOf(axis, row.from, row.to);
  return (
    <div className="trades-strip" aria-hidden="true">
      {site === undefined ? null : <span className={row.to === undefined ? 'site open' : 'site'} style={along(site)} />}
      {cover.spans.map(({ from, to, edition }) => {
        const stretch = stretchOf(axis, from, to);
        return stretch === undefined ? null : <span key={edition} className="held" style={along(stretch)} />;
      })}
      {cover.gaps.map(({ from, to }) => {
        const stretch = stretchOf(axis, from, to);
        return stretch === undefined ? null : <span key={from} className="gap" style={along(stretch)} />;
      })}
      <span className="today" style={{ left: `${placeOf(axis, day)}%` }} />
    </div>
  );
}
