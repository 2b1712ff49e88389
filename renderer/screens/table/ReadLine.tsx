import type { ReadAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { Button } from '../../kit/Button.tsx';
import type { Answered } from '../../state/asked.ts';
import { sureOnes } from './offers.ts';
import type { Draft, LinkTo } from './table-state.ts';

export interface ReadLineProps {
  readonly reading: Answered<'read'>;
  readonly draft: Draft;
  readonly practice: Practice;
  readonly onDraft: (change: Partial<Draft>) => void;
}

/** The same certificate is kept already: this may be its next edition. */
function Again({ read, draft, onDraft }: { readonly read: ReadAnswer } & Pick<ReadLineProps, 'draft' | 'onDraft'>) {
  const { again } = read;
  if (again === undefined || draft.links.some(({ to }) => to === again.edition)) return null;
  const link: LinkTo = { word: 'replaces', to: again.edition };
  return (
    <p className="table-already small">
      {again.why}{' '}
      <Button
        as="word"
        small
        onPress={() => onDraft({ kind: draft.kind ?? read.kind, links: [...draft.links, link] })}
        label={`This replaces ${again.title}`}
      >
        This is a newer edition of it
      </Button>
    </p>
  );
}

/** How far reading has come, what speaks against it, and all that is sure in one go. */
export function ReadLine({ reading, draft, practice, onDraft }: ReadLineProps) {
  const { answer: read, error, waiting } = reading;
  if (waiting) {
    return (
      <p className="small pencil" role="status">
        Reading the pages ... you need not wait for it.
      </p>
    );
  }
  if (read === undefined) {
    return error === undefined || error.asks === 'password' ? null : (
      <p className="small pencil">Nothing could be read: {error.message}</p>
    );
  }
  const sure = sureOnes(read, draft, practice);
  return (
    <>
      {sure.count === 0 ? null : (
        <p>
          <Button small onPress={() => onDraft(sure.take(draft))}>
            {sure.count === 1 ? 'Take the one entry that is sure' : `Take all ${sure.count} entries that are sure`}
          </Button>
        </p>
      )}
      <Again read={read} draft={draft} onDraft={onDraft} />
      {read.notes.map((note) => (
        <p key={note} className="table-suggested small">
          {note}
        </p>
      ))}
    </>
  );
}
