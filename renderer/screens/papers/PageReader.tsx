import { useVirtualizer } from '@tanstack/react-virtual';
import { type RefObject, useEffect, useEffectEvent, useLayoutEffect, useRef, useState } from 'react';
import { PagePicture } from '../../kit/PagePicture.tsx';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { type Drawing, DrawLayer } from './DrawLayer.tsx';
import { PageNumbers } from './PageNumbers.tsx';
import { PageSize } from './PageSize.tsx';
import { type PointedAt, type ReaderPage, seenSize, shareOf } from './reader-pages.ts';
import './reader.css';

const gap = 16;

function useWidth(box: RefObject<HTMLElement | null>): number {
  const [width, setWidth] = useState(600);
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => setWidth(element.clientWidth));
    watch.observe(element);
    return () => watch.disconnect();
  }, [box]);
  return width;
}

/** A place something was read from. */
export interface PlaceShown extends Required<PointedAt> {
  readonly sureness: 'sure' | 'likely' | 'guess';
  readonly words: string;
}

export interface PageReaderProps {
  readonly pages: readonly ReaderPage[];
  readonly title: string;
  /** 0-based page to open at, and what to point at on it; a new object turns there again. */
  readonly at?: PointedAt | undefined;
  /** Places that were read, marked lightly. */
  readonly places?: readonly PlaceShown[] | undefined;
  /** Places are being drawn on the pages. */
  readonly drawing?: Drawing | undefined;
}

interface BarProps {
  readonly count: number;
  readonly current: number;
  readonly zoom: string;
  readonly onZoom: (zoom: string) => void;
}

function Bar({ count, current, zoom, onZoom }: BarProps) {
  return (
    <div className="reader-bar">
      <p>
        Page {current + 1} of {count}
      </p>
      <PageSize size={zoom} onSize={onZoom} />
    </div>
  );
}

function usePageScroll({ pages, at }: Pick<PageReaderProps, 'pages' | 'at'>, zoom: string) {
  const box = useRef<HTMLElement>(null);
  const width = useWidth(box);
  const wide = ((width - 2) * Number(zoom)) / 100;
  const virtual = useVirtualizer({
    count: pages.length,
    getScrollElement: () => box.current,
    estimateSize: (index) => {
      const page = pages[index];
      if (page === undefined) return 100;
      const size = seenSize(page);
      return Math.round((wide * size.height) / size.width) + gap;
    },
    overscan: 1,
    getItemKey: (index) => index,
  });
  // A page near the end can't come to the top: as long as nobody scrolls on, the page asked for is the one shown.
  const [asked, ask] = useState<{ readonly page: number; readonly offset: number }>();
  const go = (page: number): void => {
    const [offset] = virtual.getOffsetForIndex(page, 'start') ?? [0];
    ask({ page, offset });
    virtual.scrollToOffset(offset);
  };
  // Sizes hang on the width and the pages alone. Where nobody scrolled on, the page asked for stays in view in the new ones.
  const measure = useEffectEvent((_wide: number, _pages: PageReaderProps['pages']) => {
    const held = asked !== undefined && Math.abs(asked.offset - (virtual.scrollOffset ?? 0)) < 4;
    virtual.measure();
    if (held && asked.page < pages.length) go(asked.page);
  });
  useEffect(() => measure(wide, pages), [wide, pages]);
  // Turns there once for each place pointed at, as soon as there are pages.
  const turnTo = useEffectEvent((page: number, count: number) => {
    if (page < count) go(page);
  });
  const count = pages.length;
  useEffect(() => {
    if (at === undefined) return;
    const turn = requestAnimationFrame(() => turnTo(at.page, count));
    return () => cancelAnimationFrame(turn);
  }, [at, count]);
  const offset = virtual.scrollOffset ?? 0;
  const middle = offset + (box.current?.clientHeight ?? 0) / 3;
  const seen = virtual.getVirtualItems().find(({ end }) => end > middle)?.index ?? 0;
  const current = asked !== undefined && Math.abs(asked.offset - offset) < 4 ? asked.page : seen;
  return { box, virtual, go, wide, current };
}

/** The pages of a paper, large, one below the other; only those in view are drawn. */
export function PageReader({ pages, title, at, places = [], drawing }: PageReaderProps) {
  const [zoom, setZoom] = useState<string>('100');
  const { box, virtual, go, wide, current } = usePageScroll({ pages, at }, zoom);
  return (
    <section className="reader" aria-label={`Pages of ${title}`}>
      <Bar count={pages.length} current={current} zoom={zoom} onZoom={setZoom} />
      <div className={pages.length > 1 ? 'reader-body numbered' : 'reader-body'}>
        {pages.length > 1 ? <PageNumbers count={pages.length} current={current} onGo={go} /> : null}
        <Scrolled className="reader-pages" box={box} label="Pages, one below the other">
          <div style={{ height: virtual.getTotalSize(), width: wide }}>
            {virtual.getVirtualItems().map(({ key, index, start }) => {
              const page = pages[index];
              if (page === undefined) return null;
              const place = at?.page === index ? at.place : undefined;
              return (
                <div key={`${key} ${zoom}`} className="reader-page" style={{ transform: `translateY(${start}px)` }}>
                  <PagePicture {...page} title={`${title}, page ${index + 1}`} />
                  {places.map((read) =>
                    read.page !== index || read.place === undefined ? null : (
                      <span
                        key={`${read.words} ${read.place.x} ${read.place.y}`}
                        className={`reader-read ${read.sureness}`}
                        style={shareOf(read.place, page)}
                      />
                    ),
                  )}
                  {drawing === undefined ? null : <DrawLayer drawing={drawing} page={page} index={index} />}
                  {place === undefined ? null : <span className="reader-place" style={shareOf(place, page)} />}
                </div>
              );
            })}
          </div>
        </Scrolled>
      </div>
    </section>
  );
}
