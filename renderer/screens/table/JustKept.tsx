import type { KeptPaper } from '../../../core/desk/contract/answers.ts';
import { Button } from '../../kit/Button.tsx';
import { addressOf } from '../../state/place.ts';
import { pagesInWords } from '../papers/state-words.ts';
import { useTable } from './table-state.ts';

function Kept({ kept }: { readonly kept: KeptPaper }) {
  return (
    <li>
      <a href={addressOf('papers', kept.paper, kept.edition)}>{kept.title}</a>, {pagesInWords(kept.pages)}
      {kept.notes.map((note) => (
        <p key={note} className="small">
          {note}
        </p>
      ))}
    </li>
  );
}

/** What was kept last and what was noticed while keeping it; stays until it is read. */
export function JustKept() {
  const kept = useTable((state) => state.justKept);
  if (kept.length === 0) return null;
  return (
    <section className="table-kept" aria-label="Just kept">
      <h2 className="unseen">Just kept</h2>
      <p className="small pencil">Just kept</p>
      <ul>
        {kept.map((each) => (
          <Kept key={each.edition} kept={each} />
        ))}
      </ul>
      <Button as="word" small onPress={() => useTable.setState({ justKept: [] })} label="Put away what was just kept">
        put away
      </Button>
    </section>
  );
}
