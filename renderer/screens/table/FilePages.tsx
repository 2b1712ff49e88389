import type { ReadAnswer, TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { PagePicks } from './PagePicks.tsx';
import type { Draft, Turn } from './table-state.ts';

export interface FilePagesProps {
  readonly draft: Draft;
  readonly items: readonly TableItem[];
  readonly read: ReadAnswer | undefined;
  readonly onDraft: (change: Partial<Draft>) => void;
}

/** Offered where most pages lie otherwise than they are turned now. */
function Upright({
  lies,
  turn,
  onTurn,
}: {
  readonly lies: Turn;
  readonly turn: Turn;
  readonly onTurn: (to: Turn) => void;
}) {
  if (lies === turn) return null;
  return (
    <p className="table-suggested small">
      {lies === 180 ? 'The pages seem to stand on their head. ' : 'The pages seem to lie on their side. '}
      <Button as="word" small onPress={() => onTurn(lies)}>
        Turn them upright
      </Button>
    </p>
  );
}

/** The pages of each file of a draft: which belong to it, and how they are turned. Known once the file was read. */
export function FilePages({ draft, items, read, onDraft }: FilePagesProps) {
  return draft.files.map((file, n) => {
    const sound = read?.sound[n];
    const item = items.find((each) => each.item === file);
    if (sound === undefined || item === undefined) return null;
    const turn = draft.turns[file] ?? 0;
    const onTurn = (to: Turn): void => onDraft({ turns: { ...draft.turns, [file]: to } });
    return (
      <div key={file}>
        <Upright lies={sound.turn} turn={turn} onTurn={onTurn} />
        <PagePicks
          name={file}
          count={sound.pages}
          blank={sound.blank}
          kept={item.keptPages}
          picked={draft.picks[file] ?? ''}
          turn={turn}
          leaveRest={draft.leaveRest}
          onPicked={(pages) => onDraft({ picks: { ...draft.picks, [file]: pages } })}
          onTurn={onTurn}
          onLeaveRest={(leaveRest) => onDraft({ leaveRest })}
        />
      </div>
    );
  });
}
