import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { sizeInWords } from '../papers/state-words.ts';
import { choose, draftIdOf, onPaperOnly, useTable } from './table-state.ts';

interface RowProps {
  readonly item: TableItem;
  /** The draft on view. */
  readonly draftId: string;
}

function whereabouts(item: TableItem): string {
  if (item.arriving) return 'still arriving';
  if (item.already !== undefined) return `kept already, as ${item.already}`;
  if (item.leftPages !== undefined) {
    return `${/^\d+$/.test(item.leftPages) ? 'page' : 'pages'} ${item.leftPages} still to keep`;
  }
  const [kind] = item.suggested?.kinds ?? [];
  if (item.reading === 'under way') return 'being read ...';
  return kind === undefined || kind.sureness === 'guess' ? sizeInWords(item.bytes) : `reads like: ${kind.title}`;
}

/** "1 of 3" where an item is one of several files of a paper being made. */
function placeIn(files: readonly string[], item: string): string | undefined {
  return files.length > 1 ? `${files.indexOf(item) + 1} of ${files.length}` : undefined;
}

function ItemRow({ item, draftId }: RowProps) {
  const table = useTable();
  const own = draftIdOf(table, item.item);
  const draft = table.drafts[own];
  const here = own === draftId;
  const place = draft === undefined ? undefined : placeIn(draft.files, item.item);
  return (
    <li className={here ? 'table-item here' : 'table-item'}>
      <button
        type="button"
        aria-current={table.chosen === item.item ? 'true' : undefined}
        onClick={() => choose(item.item)}
      >
        <span className="table-name">{item.name}</span>
        <span className="small pencil">{[whereabouts(item), place].filter(Boolean).join(' · ')}</span>
      </button>
    </li>
  );
}

export interface ItemListProps {
  readonly items: readonly TableItem[];
  readonly draftId: string;
}

/** What lies on the table, oldest first, as it came. */
export function ItemList({ items, draftId }: ItemListProps) {
  const chosen = useTable((state) => state.chosen);
  return (
    <nav className="table-list" aria-label="On the table">
      <ul>
        {items.map((item) => (
          <ItemRow key={item.item} item={item} draftId={draftId} />
        ))}
      </ul>
      <button
        type="button"
        className="table-plain"
        aria-current={chosen === onPaperOnly ? 'true' : undefined}
        onClick={() => choose(onPaperOnly)}
      >
        A paper you hold on paper only
      </button>
    </nav>
  );
}
