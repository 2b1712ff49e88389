import type { KeptPaper } from '../../../core/desk/contract/answers.ts';
import { Button } from '../../kit/Button.tsx';
import { perform } from '../../state/doing.ts';
import { addressOf } from '../../state/place.ts';
import { pagesInWords } from '../papers/state-words.ts';
import { useTable } from './table-state.ts';

function Kept({ kept }: { readonly kept: KeptPaper }) {
  const { paper, edition, title, pages, notes, undated, unnumbered } = kept;
  return (
    <li>
      Kept: <a href={addressOf('papers', paper, edition)}>{title}</a>, {pagesInWords(pages)}.
      {undated === undefined ? null : (
        <p className="small">
          Nobody can say how long it is good: {undated}.{' '}
          <a href={addressOf('papers', paper, edition)}>Add the date on its sheet</a>
        </p>
      )}
      {unnumbered.length === 0 ? null : (
        <p className="small">
          Kept without its number. It will be missed for: {unnumbered.join('; ')}.{' '}
          <a href={addressOf('papers', paper, edition)}>Add the number on its sheet</a>
        </p>
      )}
      {notes.map((note) => (
        <p key={note} className="small">
          {note}
        </p>
      ))}
    </li>
  );
}

/** What was kept last and what was noticed while keeping it; stays until it is read. */
export function JustKept() {
  const just = useTable((state) => state.justKept);
  const putAway = (): void => useTable.setState({ justKept: undefined });
  const undo = async (): Promise<void> => {
    const reply = await perform('undo', { act: just?.act }, { say: 'Taken back: it lies on the table again.' });
    if (reply.ok) putAway();
  };
  return (
    <div className={just === undefined ? '' : 'table-kept settle'} role="status">
      {just === undefined ? null : (
        <>
          <ul>
            {just.kept.map((each) => (
              <Kept key={each.edition} kept={each} />
            ))}
          </ul>
          {just.act === undefined ? null : (
            <Button small onPress={() => void undo()}>
              Undo
            </Button>
          )}
          <Button as="word" small onPress={putAway} label="Put away what was just kept">
            put away
          </Button>
        </>
      )}
    </div>
  );
}
