import type { EffectAnswer } from '../../core/desk/contract/screen-answers.ts';
import { addressOf } from '../state/place.ts';
import './effect.css';

/** What would be otherwise on this lot; harder, easier or just different is told by word, not by colour alone. */
export function EffectList({ effect }: { readonly effect: EffectAnswer }) {
  const { rows, more } = effect;
  if (rows.length === 0) return <p role="status">Nothing on this lot would be otherwise.</p>;
  return (
    <div role="status">
      <p>
        <strong>On this lot:</strong>
      </p>
      <ul className="effect">
        {rows.map(({ say, errand, way }) => (
          <li key={say} className={way}>
            <span className="effect-word">{way === 'other' ? 'otherwise' : way}</span>
            {say}{' '}
            {errand === undefined ? null : (
              <a className="small" href={addressOf('errand', errand)} aria-label={`See the errand: ${say}`}>
                see
              </a>
            )}
          </li>
        ))}
      </ul>
      {more === 0 ? null : <p className="small pencil">and {more} more.</p>}
    </div>
  );
}
