import { useState } from 'react';
import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { port } from '../../client/port.ts';
import { PageReader } from '../papers/PageReader.tsx';
import { PageSize } from '../papers/PageSize.tsx';
import { sizeInWords } from '../papers/state-words.ts';
import { usePdfLook } from './pdf-on-table.ts';

interface ItemProps {
  readonly item: TableItem;
}

/** A file that can't be shown here: its name and size, and what that means. */
function FileCard({ item, say }: ItemProps & { readonly say: string }) {
  return (
    <div className="table-file">
      <p className="slab">{item.name}</p>
      <p className="small pencil">{sizeInWords(item.bytes)}</p>
      <p>{say}</p>
      <p>
        <a href={port.address(item.ticket, 'save')} download={item.name}>
          Save a copy to look at it elsewhere
        </a>
      </p>
    </div>
  );
}

function Picture({ item }: ItemProps) {
  const [broken, breakIt] = useState(false);
  const [size, setSize] = useState('100');
  if (broken) {
    return (
      <FileCard item={item} say="This photo can’t be shown here before it is kept. It can be kept all the same." />
    );
  }
  return (
    <section className="reader" aria-label={item.name}>
      <div className="reader-bar">
        <p>Photo</p>
        <PageSize size={size} onSize={setSize} />
      </div>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keys. */}
      <section className="reader-pages table-picture" tabIndex={0} aria-label="The photo, to be scrolled">
        <img
          src={port.address(item.ticket)}
          alt={item.name}
          onError={() => breakIt(true)}
          style={{ width: `${size}%` }}
        />
      </section>
    </section>
  );
}

function Pdf({ item }: ItemProps) {
  const look = usePdfLook(item.ticket);
  switch (look.is) {
    case 'opening':
      return <p className="waiting">Opening {item.name} ...</p>;
    case 'open':
      return <PageReader pages={look.pages} title={item.name} />;
    case 'shut':
      return (
        <FileCard
          item={item}
          say={
            look.locked
              ? 'This PDF is locked, so it can’t be shown here before it is kept. Say what it is and keep it: you will be asked for its password.'
              : 'This PDF can’t be shown here. Keeping it will say whether its pages can be saved.'
          }
        />
      );
  }
}

/** What came in, large enough to read dates and numbers off it. */
export function ItemView({ item }: ItemProps) {
  switch (item.sort) {
    case 'pdf':
      return <Pdf key={item.ticket} item={item} />;
    case 'picture':
      return <Picture key={item.ticket} item={item} />;
    case 'other':
      return (
        <FileCard item={item} say="This is neither a PDF nor a photo. Print it to a PDF and lay that here instead." />
      );
  }
}
