import { useVirtualizer } from '@tanstack/react-virtual';
import { type RefObject, useEffect, useRef, useState } from 'react';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { aspectOf, type Leaf } from './leaves.ts';
import { SheetView } from './SheetView.tsx';

export interface ReaderProps {
  readonly title: string;
  readonly leaves: readonly Leaf[];
  readonly start: number;
  /** What is said of the sheet in view beside its number. */
  readonly about: (leaf: Leaf) => string;
  readonly onClose: (at: number) => void;
  /** A link on a written sheet: where it leads among `leaves`. */
  readonly lead?: ((leaf: Leaf, sheet: number) => number) | undefined;
}

interface Room {
  readonly width: number;
  readonly height: number;
}

const zooms = [
  { id: 'sheet', title: 'Whole sheet' },
  { id: 'width', title: 'Width' },
  { id: 'twice', title: 'Twice' },
];
const gap = 16;

function widthFor(zoom: string, leaf: Leaf, room: Room): number {
  const full = Math.max(200, room.width - 2 * gap);
  if (zoom === 'twice') return full * 2;
  if (zoom === 'width') return full;
  return Math.min(full, Math.max(200, room.height - 2 * gap) * aspectOf(leaf));
}

function useRoom(element: HTMLElement | null): Room | undefined {
  const [room, setRoom] = useState<Room>();
  useEffect(() => {
    if (element === null) return;
    const watch = new ResizeObserver(() => setRoom({ width: element.clientWidth, height: element.clientHeight }));
    watch.observe(element);
    return () => watch.disconnect();
  }, [element]);
  return room;
}

interface SheetsProps extends Pick<ReaderProps, 'leaves' | 'start' | 'lead'> {
  readonly box: HTMLElement;
  readonly room: Room;
  readonly zoom: string;
  readonly onAt: (at: number) => void;
  /** How the sheet before or after is turned to, while these are on view. */
  readonly turning: RefObject<(to: number) => void>;
}

/** The sheets one below the other at one size; begun anew, at the same sheet, when the size changes. */
function Sheets({ leaves, start, lead, box, room, zoom, onAt, turning }: SheetsProps) {
  const sizeOf = (leaf: Leaf): number => widthFor(zoom, leaf, room) / aspectOf(leaf) + gap;
  const [from] = useState(() => leaves.slice(0, start).reduce((sum, leaf) => sum + sizeOf(leaf), 0));
  const rows = useVirtualizer({
    count: leaves.length,
    getScrollElement: () => box,
    getItemKey: (index) => leaves[index]?.key ?? index,
    estimateSize: (index) => {
      const leaf = leaves[index];
      return leaf === undefined ? room.height : sizeOf(leaf);
    },
    initialOffset: from,
    overscan: 1,
  });
  const shown = rows.getVirtualItems();
  const middle = (rows.scrollOffset ?? from) + room.height / 2;
  const at = (shown.find(({ end }) => end > middle) ?? shown.at(-1))?.index ?? start;
  const turn = (to: number): void =>
    rows.scrollToIndex(Math.max(0, Math.min(leaves.length - 1, to)), { align: 'start' });
  useEffect(() => onAt(at), [at, onAt]);
  useEffect(() => {
    turning.current = turn;
  });
  return (
    <div style={{ height: rows.getTotalSize(), position: 'relative' }}>
      {shown.map(({ index, key, start: top }) => {
        const leaf = leaves[index];
        if (leaf === undefined) return null;
        return (
          <div
            key={key}
            data-index={index}
            ref={rows.measureElement}
            className="errand-reader-sheet"
            style={{ transform: `translateY(${top}px)`, paddingBottom: gap }}
          >
            <div style={{ width: widthFor(zoom, leaf, room) }}>
              <SheetView leaf={leaf} onSheet={lead === undefined ? undefined : (sheet) => turn(lead(leaf, sheet))} />
            </div>
          </div>
        );
      })}
    </div>
  );
}

/** Sheets at full size; only those in view are drawn, however many there are. */
export function Reader({ title, leaves, start, about, onClose, lead }: ReaderProps) {
  const [box, setBox] = useState<HTMLElement | null>(null);
  const [zoom, setZoom] = useState('sheet');
  const [at, setAt] = useState(start);
  const turning = useRef<(to: number) => void>(() => undefined);
  const room = useRoom(box);
  useEffect(() => box?.focus({ preventScroll: true }), [box]);
  const leaf = leaves[at];
  return (
    <section
      className="errand-reader"
      aria-label={title}
      onKeyDown={({ key }) => {
        if (key === 'Escape') onClose(at);
      }}
    >
      <header>
        <h2>{title}</h2>
        <Button small onPress={() => onClose(at)}>
          Back to the errand
        </Button>
        <Button small disabled={at === 0} onPress={() => turning.current(at - 1)}>
          ‹ Sheet before
        </Button>
        <Button small disabled={at === leaves.length - 1} onPress={() => turning.current(at + 1)}>
          Next sheet ›
        </Button>
        <Choices label="Size" labelUnseen options={zooms} value={zoom} onChange={setZoom} />
        <p aria-live="polite">{leaf === undefined ? '' : `Page ${leaf.n} of ${leaf.of}: ${about(leaf)}`}</p>
      </header>
      <Scrolled className="errand-reader-sheets" box={setBox} label="Sheets">
        {box === null || room === undefined ? null : (
          <Sheets
            key={`${zoom} ${room.width} ${room.height}`}
            {...{ leaves, lead, box, room, zoom, turning }}
            start={at}
            onAt={setAt}
          />
        )}
      </Scrolled>
    </section>
  );
}
