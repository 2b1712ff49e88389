import { useVirtualizer } from '@tanstack/react-virtual';
import { useEffect, useRef, useState } from 'react';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
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

const zooms = [
  { id: 'sheet', title: 'Whole sheet' },
  { id: 'width', title: 'Width' },
  { id: 'twice', title: 'Twice' },
];
const gap = 16;

function widthFor(zoom: string, leaf: Leaf, room: { readonly width: number; readonly height: number }): number {
  const full = Math.max(200, room.width - 2 * gap);
  if (zoom === 'twice') return full * 2;
  if (zoom === 'width') return full;
  return Math.min(full, (room.height - 2 * gap) * aspectOf(leaf));
}

function useRoom(element: HTMLElement | null) {
  const [room, setRoom] = useState({ width: 900, height: 640 });
  useEffect(() => {
    if (element === null) return;
    const watch = new ResizeObserver(() => setRoom({ width: element.clientWidth, height: element.clientHeight }));
    watch.observe(element);
    return () => watch.disconnect();
  }, [element]);
  return room;
}

/** Sheets at full size, one below the other; only those in view are drawn, however many there are. */
export function Reader({ title, leaves, start, about, onClose, lead }: ReaderProps) {
  const [box, setBox] = useState<HTMLElement | null>(null);
  const [zoom, setZoom] = useState('sheet');
  const room = useRoom(box);
  const began = useRef(false);
  const rows = useVirtualizer({
    count: leaves.length,
    getScrollElement: () => box,
    getItemKey: (index) => leaves[index]?.key ?? index,
    estimateSize: (index) => {
      const leaf = leaves[index];
      return leaf === undefined ? 800 : widthFor(zoom, leaf, room) / aspectOf(leaf) + gap;
    },
    overscan: 1,
  });
  const middle = (rows.scrollOffset ?? 0) + room.height / 2;
  const seen = rows.getVirtualItems().find(({ end }) => end > middle) ?? rows.getVirtualItems().at(-1);
  const at = seen?.index ?? start;
  const turn = (to: number): void =>
    rows.scrollToIndex(Math.max(0, Math.min(leaves.length - 1, to)), { align: 'start' });
  // biome-ignore lint/correctness/useExhaustiveDependencies: sizes change with room and zoom only.
  useEffect(() => {
    rows.measure();
    if (box === null) return;
    const to = began.current ? at : start;
    began.current = true;
    box.focus({ preventScroll: true });
    requestAnimationFrame(() => turn(to));
  }, [box, room.width, room.height, zoom]);
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
        <Button small disabled={at === 0} onPress={() => turn(at - 1)} label="Sheet before">
          ‹ Before
        </Button>
        <Button small disabled={at === leaves.length - 1} onPress={() => turn(at + 1)} label="Next sheet">
          Next ›
        </Button>
        <Choices label="Size" labelUnseen options={zooms} value={zoom} onChange={setZoom} />
        <p aria-live="polite">{leaf === undefined ? '' : `Page ${leaf.n} of ${leaf.of}: ${about(leaf)}`}</p>
      </header>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a scrolling region is reached by the keyboard. */}
      <section className="errand-reader-sheets" ref={setBox} tabIndex={0} aria-label="Sheets">
        <div style={{ height: rows.getTotalSize(), position: 'relative' }}>
          {rows.getVirtualItems().map(({ index, key, start: top }) => {
            const one = leaves[index];
            if (one === undefined) return null;
            const width = widthFor(zoom, one, room);
            return (
              <div
                key={key}
                data-index={index}
                ref={rows.measureElement}
                className="errand-reader-sheet"
                style={{ transform: `translateY(${top}px)`, paddingBottom: gap }}
              >
                <div style={{ width }}>
                  <SheetView
                    key={`${one.key} ${Math.round(width)}`}
                    leaf={one}
                    onSheet={lead === undefined ? undefined : (sheet) => turn(lead(one, sheet))}
                  />
                </div>
              </div>
            );
          })}
        </div>
      </section>
    </section>
  );
}
