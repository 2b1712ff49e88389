import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';
import { focusCard } from './card-focus.ts';
import { cutsLeft, type PartLeft } from './cuts-left.ts';
import { askAgain, asOnePaper, type OnCard, partingOf, turnToPart } from './parting.ts';
import { type Draft, useTable } from './table-state.ts';

interface CutLineProps {
  readonly cut: PartLeft;
  readonly current: boolean;
  readonly onTurn: (() => void) | undefined;
}

/** Why it is cut here is said while that is asked, then beside the part on the card alone: the list is for turning. */
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
      {because === undefined || (onTurn !== undefined && !current) ? null : <span className="pencil"> {because}</span>}
    </li>
  );
}

/** The way back from "It is one paper". */
function SaidToBeOne({ item }: { readonly item: TableItem }) {
  const back = (): void => {
    askAgain(item);
    focusCard();
  };
  return (
    <p>
      <span className="pencil">
        {item.keptPages.length === 0 ? 'Taken as one paper.' : 'The rest is taken as one.'}
      </span>{' '}
      <Button as="word" small onPress={back}>
        It is several after all
      </Button>
    </p>
  );
}

interface PartsProps {
  readonly card: OnCard;
  readonly left: readonly PartLeft[];
  readonly begun: boolean;
}

function headOf({ card, left, begun }: PartsProps): string {
  const count = card.item.suggested?.cuts.length ?? 0;
  if (!begun && left.length === count) return `This looks like ${count} papers:`;
  return `${left.length} of ${count} papers ${left.length === 1 ? 'is' : 'are'} still to be kept. Change the pages wherever they are wrong.`;
}

/** The parts, each to be turned to, and the way to say that it is none. */
function Parts({ card, left, begun }: PartsProps) {
  const { draft, item } = card;
  const turn = (cut: PartLeft | undefined): void => {
    if (cut !== undefined) turnToPart(card, cut);
    focusCard();
  };
  const join = (): void => {
    asOnePaper(card);
    focusCard();
  };
  return (
    <>
      <p>{headOf({ card, left, begun })}</p>
      <ol>
        {left.map((cut) => (
          <CutLine
            key={cut.part}
            cut={cut}
            current={begun && draft.part === cut.part}
            onTurn={begun ? () => turn(cut) : undefined}
          />
        ))}
      </ol>
      <p className="table-acts">
        {begun ? null : (
          <Button small onPress={() => turn(left[0])}>
            Keep them one by one
          </Button>
        )}
        <Button as="word" small onPress={join}>
          {item.keptPages.length === 0 ? 'It is one paper' : 'The rest is one paper'}
        </Button>
      </p>
    </>
  );
}

interface CutsProps {
  readonly id: string;
  readonly draft: Draft;
  readonly items: readonly TableItem[];
}

/** One scan that looks like several papers: offered with the words that gave it away, parted only when it is said. */
export function Cuts({ id, draft, items }: CutsProps) {
  const [file, ...more] = draft.files;
  const item = items.find((each) => each.item === file);
  const how = useTable((state) => (item === undefined ? undefined : partingOf(state, item)?.how));
  if (item === undefined || more.length > 0) return null;
  const left = cutsLeft(item);
  if ((item.suggested?.cuts.length ?? 0) < 2 || left.length === 0) return null;
  return (
    <section className="table-cuts small" aria-label="Papers in this scan">
      {how === 'one paper' ? (
        <SaidToBeOne item={item} />
      ) : (
        <Parts card={{ id, draft, item }} left={left} begun={how === 'one by one'} />
      )}
    </section>
  );
}
