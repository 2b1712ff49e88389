import { useEffect, useRef } from 'react';
import { screens } from '../screens/screens.ts';
import { useAnswer } from '../state/asked.ts';
import { addressOf, usePlace } from '../state/place.ts';

/** What the book holds; the count says where something waits. */
export function Contents() {
  const { screen, lot } = usePlace();
  const table = useAnswer('table', {}).answer;
  const counts: Readonly<Record<string, number>> = { table: table?.items.length ?? 0 };
  // With large letters the contents are one row, wider than the window: where one is stays in sight. The row itself is
  // moved: a link scrolled into view would become the place Tab starts from, past the way to skip to the sheet.
  const row = useRef<HTMLElement>(null);
  useEffect(() => {
    const here = row.current?.querySelector<HTMLElement>(`[href="${addressOf(screen)}"]`);
    if (row.current === null || !here) return;
    const box = row.current.getBoundingClientRect();
    const link = here.getBoundingClientRect();
    row.current.scrollLeft += Math.max(0, link.right - box.right) + Math.min(0, link.left - box.left);
  }, [screen]);
  return (
    <nav className="contents" aria-label="Contents" ref={row}>
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
