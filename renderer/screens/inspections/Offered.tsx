import { useState } from 'react';
import type { InspectionsAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { lay } from './inspections-store.ts';

/** Inspections other places hold by themselves: one call tells whether this one does. */
export function Offered({ rows }: { readonly rows: InspectionsAnswer['offered'] }) {
  const [open, setOpen] = useState(false);
  if (rows.length === 0) return null;
  return (
    <section aria-labelledby="inspections-offered">
      <h2 id="inspections-offered">Held elsewhere, not here as far as the rules on file say</h2>
      <p>
        Some offices look at these by themselves. Ask yours once; what they say brings an inspection in, with whatever
        waits for it.{' '}
        <Button as="word" small onPress={() => setOpen(!open)}>
          {open ? 'fold' : `show all ${rows.length}`}
        </Button>
      </p>
      {open ? (
        <ul className="inspections-offered">
          {rows.map(({ errand, title, office, rule }) => (
            <li key={errand}>
              <span>
                {title} <span className="small pencil">{office}</span>
              </span>
              <Button as="word" small onPress={() => lay({ slip: 'held here', rule })} label={`They told me: ${title}`}>
                they told me
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
