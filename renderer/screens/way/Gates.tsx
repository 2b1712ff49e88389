import { dayInWords } from '../../../core/vocabulary/days.ts';
import type { WayModel } from './model.ts';

/** What may not be done yet, in words. */
export function Gates({ model }: { readonly model: WayModel }) {
  if (model.gates.length === 0) return null;
  return (
    <section className="way-gates">
      <h2>Not yet</h2>
      <dl>
        {model.gates.map(({ key, title, say, waitsFor, unknown, opens }) => (
          <div key={key}>
            <dt>{title}</dt>
            <dd>
              {say}{' '}
              <span className="pencil">
                {unknown ? 'It hangs on a question nobody answered yet.' : `Settle first: ${waitsFor.join(', ')}`}
                {unknown || opens === undefined ? '' : `; ${dayInWords(opens)} as it stands.`}
              </span>
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
