import type { KeptPages } from '../../../core/desk/contract/screen-answers.ts';
import { pagesInWords } from '../../../core/vocabulary/page-picks.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Tick } from '../../kit/Tick.tsx';
import { all, pickedPages, wrongPages } from './picked-pages.ts';
import { pointAt, type Turn } from './table-state.ts';

export interface PagePicksProps {
  readonly name: string;
  readonly count: number;
  /** 0-based; no ink on them. */
  readonly blank: readonly number[];
  readonly kept: readonly KeptPages[];
  /** "1-3, 5"; all where empty. */
  readonly picked: string;
  readonly turn: Turn;
  readonly leaveRest: boolean;
  readonly onPicked: (pages: string) => void;
  readonly onTurn: (turn: Turn) => void;
  readonly onLeaveRest: (leave: boolean) => void;
}

const nextTurn: Readonly<Record<Turn, Turn>> = { 0: 90, 90: 180, 180: 270, 270: 0 };

/** Pages that some paper holds already. */
export function keptAlready(kept: readonly KeptPages[], count: number): ReadonlySet<number> {
  return new Set(kept.flatMap(({ pages }) => pickedPages(pages, count)));
}

function Numbers(props: PagePicksProps & { readonly chosen: readonly number[] }) {
  const { count, blank, kept, chosen, onPicked } = props;
  const held = keptAlready(kept, count);
  const toggle = (page: number): void => {
    const next = chosen.includes(page) ? chosen.filter((each) => each !== page) : [...chosen, page];
    // Without a page there is no paper; ticking the last one off means all of them again.
    onPicked(next.length === 0 || next.length === count ? '' : pagesInWords(next.toSorted((a, b) => a - b)));
    pointAt({ page });
  };
  return (
    <fieldset className="page-picks-numbers">
      <legend className="unseen">Pages that belong to it</legend>
      {all(count).map((page) => {
        const say = [blank.includes(page) ? 'blank' : '', held.has(page) ? 'kept already' : '']
          .filter(Boolean)
          .join(', ');
        return (
          <label key={page} className="page-pick" data-blank={blank.includes(page)} data-kept={held.has(page)}>
            <input type="checkbox" checked={chosen.includes(page)} onChange={() => toggle(page)} />
            <span>
              {page + 1}
              {say === '' ? null : <span className="small"> {say}</span>}
            </span>
          </label>
        );
      })}
    </fieldset>
  );
}

/** Which pages of a file make this paper: typed or ticked while looking at them. The file itself stays as it came. */
export function PagePicks(props: PagePicksProps) {
  const { name, count, blank, picked, turn, leaveRest, onPicked, onTurn, onLeaveRest, kept } = props;
  const chosen = pickedPages(picked, count);
  const blanks = blank.filter((page) => chosen.includes(page));
  const held = keptAlready(kept, count);
  const left = all(count).filter((page) => !chosen.includes(page) && !held.has(page) && !blank.includes(page));
  return (
    <section className="page-picks" aria-label={`Pages of ${name}`}>
      {count === 1 ? null : (
        <>
          <Field
            label="Pages of this paper"
            value={picked}
            onChange={onPicked}
            placeholder={`all ${count}`}
            hint={
              kept.length === 0
                ? 'Several papers in one scan: say which pages are this one, such as 1-3'
                : kept.map(({ pages, title }) => `${pages}: kept as ${title}`).join('; ')
            }
            wrong={wrongPages(picked, count, name)}
          />
          {count > 40 ? null : <Numbers {...props} chosen={chosen} />}
        </>
      )}
      <p className="table-acts">
        {blanks.length === 0 || chosen.length === blanks.length ? null : (
          <Button
            as="word"
            small
            onPress={() => onPicked(pagesInWords(chosen.filter((page) => !blanks.includes(page))))}
          >
            Leave out what is blank: {pagesInWords(blanks)}
          </Button>
        )}
        <Button as="word" small onPress={() => onTurn(nextTurn[turn])}>
          Turn the pages right
        </Button>
      </p>
      {left.length === 0 ? null : (
        <Tick checked={leaveRest} onChange={onLeaveRest}>
          The other pages ({pagesInWords(left)}) are of no use; take the file off the table
        </Tick>
      )}
    </section>
  );
}
