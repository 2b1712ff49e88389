import { useEffect, useMemo, useRef } from 'react';
import { ListBox, ListBoxItem } from 'react-aria-components/ListBox';
import { ListLayout, Virtualizer } from 'react-aria-components/Virtualizer';
import type { Leaf } from './leaves.ts';

export interface SheetListProps {
  readonly leaves: readonly Leaf[];
  readonly at: number;
  readonly onTurn: (at: number) => void;
}

const rowHeight = 28;

/** Every sheet in reading order; arrows turn the stack. Only the rows in view exist. */
export function SheetList({ leaves, at, onTurn }: SheetListProps) {
  const items = useMemo(() => leaves.map((leaf, index) => ({ ...leaf, id: index })), [leaves]);
  // Letters may stand at twice their size: rows grow with them.
  const size = rowHeight * (Number.parseFloat(getComputedStyle(document.documentElement).fontSize) / 16);
  const list = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const element = list.current;
    if (element === null) return;
    const [top, room] = [at * size, element.clientHeight];
    if (top >= element.scrollTop && top + size <= element.scrollTop + room) return;
    element.scrollTop = Math.max(0, top - (room - size) / 2);
  }, [at, size]);
  return (
    <Virtualizer layout={ListLayout} layoutOptions={{ rowHeight: size }}>
      <ListBox
        ref={list}
        className="errand-sheets"
        aria-label="Sheets in reading order"
        items={items}
        selectionMode="single"
        selectionBehavior="replace"
        disallowEmptySelection
        selectedKeys={[at]}
        onSelectionChange={(keys) => {
          const [key] = keys === 'all' ? [] : keys;
          if (typeof key === 'number') onTurn(key);
        }}
      >
        {({ id, n, tab, title, view }) => (
          <ListBoxItem id={id} textValue={`${n} ${title}`} className={`errand-sheet-row ${view.of}`}>
            <span className="mono">{n}</span>
            <span className="mono">{tab === undefined ? '' : tab}</span>
            <span>{title}</span>
          </ListBoxItem>
        )}
      </ListBox>
    </Virtualizer>
  );
}
