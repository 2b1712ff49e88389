import { addressOf } from '../../state/place.ts';
import type { PlacedLife, SheetPlan } from './sheet-plan.ts';

function place({ from, to, gapTo, y, outside }: PlacedLife) {
  const end = gapTo ?? to;
  const left = outside ? end + 4 : from;
  return {
    left: `${left / 16}rem`,
    top: `${y / 16}rem`,
    ...(outside ? {} : { width: `${(end - from) / 16}rem` }),
  };
}

/** The names on the strips; inside a long strip a name stays in view while the sheet scrolls. */
export function Names({ plan, focused }: { readonly plan: SheetPlan; readonly focused: string | undefined }) {
  return (
    <ul className="way-names" aria-label="Lives of the papers">
      {plan.lives.map((placed) => {
        const { life, words, outside } = placed;
        const held = life.needed.some(({ key }) => key === focused);
        const late = life.lateFor.length === 0 ? '' : ' late';
        return (
          <li
            key={life.key}
            style={place(placed)}
            className={`${outside ? 'outside' : 'inside'}${held ? ' held' : ''}${late}`}
          >
            {life.link === undefined ? <span>{words}</span> : <a href={addressOf('papers', life.link)}>{words}</a>}
          </li>
        );
      })}
    </ul>
  );
}
