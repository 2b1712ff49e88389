import { useWindowVirtualizer } from '@tanstack/react-virtual';
import { type ReactNode, useRef } from 'react';

interface LinesInViewProps<T extends { readonly id: string | number }> {
  readonly className: string;
  readonly lines: readonly T[];
  /** A guess in pixels until a line was seen. */
  readonly heightOf: (line: T | undefined) => number;
  readonly overscan: number;
  readonly children: (line: T) => ReactNode;
}

/** A long list on a page that scrolls: only the lines in view are there, for a lot may hold thousands. */
export function LinesInView<T extends { readonly id: string | number }>({
  className,
  lines,
  heightOf,
  overscan,
  children,
}: LinesInViewProps<T>) {
  const list = useRef<HTMLDivElement>(null);
  const virtual = useWindowVirtualizer({
    count: lines.length,
    estimateSize: (at) => heightOf(lines[at]),
    getItemKey: (at) => lines[at]?.id ?? at,
    overscan,
    scrollMargin: list.current?.offsetTop ?? 0,
  });
  return (
    <div ref={list} className={className} style={{ height: virtual.getTotalSize() }}>
      {virtual.getVirtualItems().map(({ key, index, start }) => {
        const line = lines[index];
        if (line === undefined) return null;
        return (
          <div
            key={key}
            ref={virtual.measureElement}
            data-index={index}
            style={{ transform: `translateY(${start - virtual.options.scrollMargin}px)` }}
          >
            {children(line)}
          </div>
        );
      })}
    </div>
  );
}
