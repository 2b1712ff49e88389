import { type CSSProperties, useLayoutEffect, useRef, useState } from 'react';
import { LinesInView } from '../../kit/LinesInView.tsx';
import type { DrawerLine } from './arrange-papers.ts';
import { type Arrangement, useDrawer } from './drawer-state.ts';
import { PaperCard } from './PaperCard.tsx';
import { WantedCard } from './WantedCard.tsx';

interface LineProps {
  readonly line: DrawerLine;
  readonly side: number;
  readonly arrangement: Arrangement;
}

/** What the style sheet has to know of a line. */
type LineStyle = CSSProperties & { readonly '--tab'?: number; readonly '--side'?: number };

function Line({ line, side, arrangement }: LineProps) {
  if (line.of === 'tab') {
    const { title, tab, cards } = line.divider;
    const style: LineStyle = { '--tab': arrangement === 'by office' ? tab : 0 };
    return (
      <h2 className="papers-tab" style={style}>
        <span>
          {title} <span className="small pencil">{cards.length}</span>
        </span>
      </h2>
    );
  }
  const style: LineStyle = { '--side': side };
  return (
    <div className="papers-side" style={style}>
      {line.cards.map((row) =>
        row.paper === undefined ? (
          <WantedCard key={row.row} row={row} />
        ) : (
          <PaperCard key={row.row} row={row} sayOffice={arrangement === 'by date'} />
        ),
      )}
    </div>
  );
}

/** How many cards stand beside each other: by the width there is, in letters, so that large letters get one. */
export function useSide(): { readonly side: number; readonly box: React.RefObject<HTMLDivElement | null> } {
  const box = useRef<HTMLDivElement>(null);
  const [side, setSide] = useState(2);
  useLayoutEffect(() => {
    const element = box.current;
    if (element === null) return;
    const watch = new ResizeObserver(() => {
      const letter = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
      setSide(Math.max(1, Math.min(3, Math.floor(element.clientWidth / (26 * letter)))));
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  return { side, box };
}

/** Comes back to where the drawer was left, and notes where it is left. */
function useDepth(): void {
  // Before the page is drawn without the drawer: then it is short, and its scroll says nothing any more.
  useLayoutEffect(() => {
    const { depth } = useDrawer.getState();
    const note = (): void => useDrawer.setState({ depth: window.scrollY });
    // Noted only after coming back, or the frame's own scrolling up would be taken for the person's.
    let begin = 0;
    const back = requestAnimationFrame(() => {
      window.scrollTo(0, depth);
      begin = requestAnimationFrame(() => window.addEventListener('scroll', note, { passive: true }));
    });
    return () => {
      cancelAnimationFrame(back);
      cancelAnimationFrame(begin);
      window.removeEventListener('scroll', note);
    };
  }, []);
}

export interface DrawerLinesProps {
  readonly lines: readonly DrawerLine[];
  /** Cards beside each other. */
  readonly side: number;
  readonly arrangement: Arrangement;
}

/** Dividers and rows of cards. */
export function DrawerLines({ lines, side, arrangement }: DrawerLinesProps) {
  useDepth();
  return (
    <LinesInView
      className="papers-lines"
      lines={lines}
      heightOf={(line) => (line?.of === 'tab' ? 56 : 150)}
      overscan={6}
    >
      {(line) => <Line line={line} side={side} arrangement={arrangement} />}
    </LinesInView>
  );
}
