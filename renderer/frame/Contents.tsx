import { screens } from '../screens/screens.ts';
import { useAnswer } from '../state/asked.ts';
import { addressOf, usePlace } from '../state/place.ts';

/** What the book holds; the count says where something waits. */
export function Contents() {
  const { screen, lot } = usePlace();
  const table = useAnswer('table', {}).answer;
  const counts: Readonly<Record<string, number>> = { table: table?.items.length ?? 0 };
  return (
    <nav className="contents" aria-label="Contents">
      {screens
        .filter(({ listed }) => listed)
        .map(({ id, title }) => (
          <a key={`${lot} ${id}`} href={addressOf(id)} aria-current={screen === id ? 'page' : undefined}>
            {title}
            {(counts[id] ?? 0) > 0 ? <span className="count">{counts[id]}</span> : null}
          </a>
        ))}
    </nav>
  );
}
