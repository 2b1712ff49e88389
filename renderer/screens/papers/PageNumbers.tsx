import { ListBox, ListBoxItem } from 'react-aria-components/ListBox';
import { ListLayout, Virtualizer } from 'react-aria-components/Virtualizer';

export interface PageNumbersProps {
  readonly count: number;
  /** 0-based. */
  readonly current: number;
  readonly onGo: (page: number) => void;
}

/** The pages by number, for the keyboard: arrows turn the pages. */
export function PageNumbers({ count, current, onGo }: PageNumbersProps) {
  const letter = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
  const items = Array.from({ length: count }, (_, at) => ({ id: String(at), title: String(at + 1) }));
  return (
    <Virtualizer layout={ListLayout} layoutOptions={{ rowHeight: Math.round(letter * 1.75) }}>
      <ListBox
        className="reader-numbers"
        aria-label="Pages"
        items={items}
        selectionMode="single"
        selectionBehavior="replace"
        disallowEmptySelection
        selectedKeys={[String(current)]}
        onSelectionChange={(keys) => {
          if (keys === 'all') return;
          for (const key of keys) onGo(Number(key));
        }}
      >
        {({ id, title }) => (
          <ListBoxItem id={id} textValue={`Page ${title}`} className="reader-number">
            <span className="unseen">Page </span>
            {title}
          </ListBoxItem>
        )}
      </ListBox>
    </Virtualizer>
  );
}
