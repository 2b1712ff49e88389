import type { ReadCut, TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { cutsLeft } from './cuts-left.ts';
import { type Draft, partFile, pointAt, useTable } from './table-state.ts';

export interface CutsProps {
  readonly draft: Draft;
  readonly items: readonly TableItem[];
  readonly onDraft: (change: Partial<Draft>) => void;
}

/** The card turns to one of the papers: its pages and, where nothing was said yet, its kind. */
function turnTo(cut: ReadCut, item: string): Partial<Draft> {
  return { picks: { [item]: cut.pages }, kind: cut.kind };
}

interface CutLineProps {
  readonly cut: ReadCut;
  readonly current: boolean;
  readonly onTurn: (() => void) | undefined;
}

function CutLine({ cut, current, onTurn }: CutLineProps) {
  const { pages, title, because } = cut;
  const say = `${/[-,]/.test(pages) ? 'pages' : 'page'} ${pages}: ${title}`;
  return (
    <li aria-current={current ? 'true' : undefined}>
      {current ? <strong>{say}</strong> : null}
      {!current && onTurn !== undefined ? (
        <Button as="word" small onPress={onTurn} label={`Fill in ${say}`}>
          {say}
        </Button>
      ) : null}
      {!current && onTurn === undefined ? say : null}
      {because === undefined ? null : <span className="pencil"> {because}</span>}
    </li>
  );
}

/** One scan that looks like several papers: offered with the words that gave it away, parted only when it is said. */
export function Cuts({ draft, items, onDraft }: CutsProps) {
  const [file, ...more] = draft.files;
  const item = items.find((each) => each.item === file);
  const how = useTable(({ parted }) => parted[file ?? '']);
  if (item === undefined || more.length > 0 || how === 'one paper') return null;
  const left = cutsLeft(item);
  const count = item.suggested?.cuts.length ?? 0;
  if (count < 2 || left.length === 0) return null;
  const [first] = left;
  const turn = (cut: ReadCut): void => {
    onDraft(turnTo(cut, item.item));
    pointAt({ page: Number.parseInt(cut.pages, 10) - 1 });
  };
  const accept = (): void => {
    partFile(item.item, 'one by one');
    if (first !== undefined) turn(first);
  };
  return (
    <section className="table-cuts small" aria-label="Papers in this scan">
      <p>
        {how === undefined
          ? `This looks like ${count} papers:`
          : `${left.length} of ${count} papers are still to be kept. Change the pages wherever they are wrong.`}
      </p>
      <ol>
        {left.map((cut) => (
          <CutLine
            key={cut.pages}
            cut={cut}
            current={how !== undefined && draft.picks[item.item] === cut.pages}
            onTurn={how === undefined ? undefined : () => turn(cut)}
          />
        ))}
      </ol>
      <p className="table-acts">
        {how === undefined ? (
          <Button small onPress={accept}>
            Keep them one by one
          </Button>
        ) : null}
        <Button
          as="word"
          small
          onPress={() => {
            partFile(item.item, 'one paper');
            onDraft({ picks: {} });
          }}
        >
          It is one paper
        </Button>
      </p>
    </section>
  );
}
