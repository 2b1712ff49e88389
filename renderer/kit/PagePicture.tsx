import { useEffect, useRef, useState } from 'react';
import { pdfBehind } from './pdf-pages.ts';

export interface PagePictureProps {
  readonly ticket: string;
  /** 0-based. */
  readonly page: number;
  /** As seen, in points: keeps its place while it is being drawn. */
  readonly width: number;
  readonly height: number;
  readonly turn?: 0 | 90 | 180 | 270 | undefined;
  readonly title: string;
}

interface DrawJob {
  readonly ticket: string;
  readonly page: number;
  readonly turn: number;
  readonly wide: number;
}

/** Draws a page into a canvas; returns how to stop. */
function draw(
  canvas: HTMLCanvasElement,
  { ticket, page, turn, wide }: DrawJob,
  failed: (why: string) => void,
): () => void {
  let stop: () => void = () => undefined;
  let stopped = false;
  const run = async (): Promise<void> => {
    const document = await pdfBehind(ticket);
    const proxy = await document.getPage(page + 1);
    if (stopped) return;
    const rotation = (proxy.rotate + turn) % 360;
    const natural = proxy.getViewport({ scale: 1, rotation });
    const scale = Math.min(4, (wide * Math.min(2, window.devicePixelRatio)) / natural.width);
    const viewport = proxy.getViewport({ scale, rotation });
    canvas.width = Math.round(viewport.width);
    canvas.height = Math.round(viewport.height);
    const task = proxy.render({ canvas, viewport });
    stop = () => task.cancel();
    await task.promise;
  };
  run().catch((error: unknown) => {
    if (!stopped) failed(error instanceof Error ? error.message : String(error));
  });
  return () => {
    stopped = true;
    stop();
  };
}

/** A kept page, drawn when it comes into view. */
export function PagePicture({ ticket, page, width, height, turn = 0, title }: PagePictureProps) {
  const box = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [seen, see] = useState(false);
  const [trouble, setTrouble] = useState<string>();
  useEffect(() => {
    const element = box.current;
    if (element === null) return;
    const watch = new IntersectionObserver(([entry]) => {
      if (entry?.isIntersecting === true) see(true);
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    if (!seen || canvas.current === null) return;
    setTrouble(undefined);
    const wide = Math.max(80, box.current?.clientWidth ?? 300);
    return draw(canvas.current, { ticket, page, turn, wide }, setTrouble);
  }, [seen, ticket, page, turn]);
  const turned = turn === 90 || turn === 270;
  const aspect = turned ? `${height} / ${width}` : `${width} / ${height}`;
  return (
    <div className="page-picture" ref={box} style={{ aspectRatio: aspect }} role="img" aria-label={title}>
      {trouble === undefined ? <canvas ref={canvas} /> : <p className="small">This page can’t be shown: {trouble}</p>}
    </div>
  );
}
