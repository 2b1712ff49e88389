import { useState } from 'react';
import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { port } from '../../client/port.ts';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { PageReader } from '../papers/PageReader.tsx';
import { PageSize } from '../papers/PageSize.tsx';
import { sizeInWords } from '../papers/state-words.ts';
import { type TableLook, useShown } from './pages-shown.ts';
import { usePdfLook } from './pdf-on-table.ts';

interface ItemProps {
  readonly item: TableItem;
  /** The draft it belongs to and what was read for that. */
  readonly look: TableLook;
}

/** A file that can't be shown here: its name and size, and what that means. */
function FileCard({ item, say }: { readonly item: TableItem; readonly say: string }) {
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

function Picture({ item, onBroken }: { readonly item: TableItem; readonly onBroken: () => void }) {
  const [size, setSize] = useState('100');
  return (
    <section className="reader" aria-label={item.name}>
      <div className="reader-bar">
        <p>Photo</p>
        <PageSize size={size} onSize={setSize} />
      </div>
      <Scrolled className="reader-pages table-picture" label="The photo, to be scrolled">
        <img src={port.address(item.ticket)} alt={item.name} onError={onBroken} style={{ width: `${size}%` }} />
      </Scrolled>
    </section>
  );
}

/** Sound pages of a file the window can't show itself, or whose pages were turned. */
function Pages({ item, look }: ItemProps) {
  const sound = look.read?.sound[look.draft.files.indexOf(item.item)];
  const pdf = usePdfLook(sound?.ticket ?? item.ticket);
  const shown = useShown(item, look, pdf.is === 'open' ? pdf.pages : []);
  switch (pdf.is) {
    case 'opening':
      return <p className="waiting">Opening {item.name} ...</p>;
    case 'open':
      return <PageReader pages={shown.pages} title={item.name} at={shown.at} places={shown.places} />;
    case 'shut':
      return (
        <FileCard
          item={item}
          say={
            pdf.locked
              ? 'This PDF is locked. Give the password it opens with on the card beside it, then it is shown and read here.'
              : 'This PDF can’t be shown here. Keeping it will say whether its pages can be saved.'
          }
        />
      );
  }
}

/** What came in, large enough to read dates and numbers off it. */
export function ItemView(props: ItemProps) {
  const { item, look } = props;
  const [broken, breakIt] = useState(false);
  const sound = look.read?.sound[look.draft.files.indexOf(item.item)];
  switch (item.sort) {
    case 'pdf':
      return <Pages {...props} />;
    case 'picture':
      // Once its pages are made, they are shown: upright, every page of it, with the places that were read.
      if (sound !== undefined) return <Pages {...props} />;
      return broken ? (
        <FileCard item={item} say="This photo is shown here as soon as its pages are made." />
      ) : (
        <Picture item={item} onBroken={() => breakIt(true)} />
      );
    case 'other':
      return (
        <FileCard
          item={item}
          say={item.unread ?? 'This is neither a PDF nor a photo. Print it to a PDF and lay that here instead.'}
        />
      );
  }
}
