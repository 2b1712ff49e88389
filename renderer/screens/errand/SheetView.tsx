import { useEffect, useState } from 'react';
import { PagePicture } from '../../kit/PagePicture.tsx';
import { pdfBehind } from '../../kit/pdf-pages.ts';
import { SheetPicture } from '../../kit/SheetPicture.tsx';
import { useAnswer } from '../../state/asked.ts';
import type { Leaf } from './leaves.ts';
import { StampLine } from './StampLine.tsx';

export interface SheetViewProps {
  readonly leaf: Leaf;
  /** A written sheet leads to others of its own file (0-based there). */
  readonly onSheet?: ((sheet: number) => void) | undefined;
}

interface Apart {
  readonly edition: string | undefined;
  readonly page: number;
  readonly title: string;
}

/** A page of a paper that travels as a file of its own: nothing is laid over it. */
function ApartPage({ edition, page, title }: Apart) {
  const pages = useAnswer('pages', edition === undefined ? undefined : { edition });
  const row = pages.answer?.pages[page];
  if (row !== undefined) return <PagePicture {...row} title={title} />;
  const say = pages.waiting ? 'Reading ...' : 'This file goes as it came; its pages can’t be shown here.';
  return <p className="errand-no-picture small">{say}</p>;
}

/** A page of a finished file, at the size it has there. */
function FinishedPage({
  ticket,
  page,
  title,
}: {
  readonly ticket: string;
  readonly page: number;
  readonly title: string;
}) {
  const [size, setSize] = useState<{ readonly width: number; readonly height: number }>();
  const [trouble, setTrouble] = useState(false);
  useEffect(() => {
    let here = true;
    const measure = async (): Promise<void> => {
      const proxy = await (await pdfBehind(ticket)).getPage(page + 1);
      const { width, height } = proxy.getViewport({ scale: 1 });
      if (here) setSize({ width, height });
    };
    measure().catch(() => {
      if (here) setTrouble(true);
    });
    return () => {
      here = false;
    };
  }, [ticket, page]);
  if (size !== undefined) return <PagePicture ticket={ticket} page={page} {...size} title={title} />;
  return <p className="errand-no-picture small">{trouble ? 'This page can’t be shown.' : 'Reading ...'}</p>;
}

/** One sheet as it will be: written ones from the plan's drawing, papers from their own pages with the margin line. */
export function SheetView({ leaf, onSheet }: SheetViewProps) {
  const { view } = leaf;
  const title = `${leaf.title}, sheet ${leaf.n} of ${leaf.of}`;
  switch (view.of) {
    case 'written':
      return <SheetPicture drawing={view.drawing} title={title} onSheet={onSheet} />;
    case 'page': {
      const { ticket, page, width, height, turn, stamp } = view;
      const turned = turn === 90 || turn === 270;
      const [seenWidth, seenHeight] = turned ? [height, width] : [width, height];
      return (
        <div className="errand-page">
          <PagePicture ticket={ticket} page={page} width={width} height={height} turn={turn} title={title} />
          {stamp === undefined ? null : <StampLine stamp={stamp} width={seenWidth} height={seenHeight} />}
        </div>
      );
    }
    case 'apart':
      return <ApartPage edition={view.edition} page={view.page} title={title} />;
    case 'finished':
      return <FinishedPage ticket={view.ticket} page={view.page} title={title} />;
  }
}
