import { useEffect, useEffectEvent, useRef } from 'react';
import type { Drawing, DrawOp, Face, Tone } from '../../core/typeset/drawing.ts';

/** On paper the tones are those of print, whatever light the window has. */
const inks: Readonly<Record<Tone, string>> = {
  ink: '#22282B',
  pencil: '#5C6468',
  violet: '#5A2D82',
  red: '#9E2A1C',
  ochre: '#6E4A00',
  green: '#2F5A46',
  card: '#EFE6D0',
  page: '#FBF9F2',
};

const families: Readonly<Record<Face, { readonly fontFamily: string; readonly fontWeight: number }>> = {
  text: { fontFamily: "'Source Sans 3'", fontWeight: 400 },
  bold: { fontFamily: "'Source Sans 3'", fontWeight: 600 },
  slab: { fontFamily: "'Bitter'", fontWeight: 600 },
  mono: { fontFamily: "'Source Code Pro'", fontWeight: 400 },
};

function dashes(dash: readonly number[] | undefined): { readonly strokeDasharray?: string } {
  return dash === undefined ? {} : { strokeDasharray: dash.join(' ') };
}

function drawOp(op: DrawOp, height: number, key: number) {
  switch (op.op) {
    case 'text': {
      const y = height - op.y;
      const turn = op.turn === 90 ? { transform: `rotate(-90 ${op.x} ${y})` } : {};
      return (
        <text
          key={key}
          x={op.x}
          y={y}
          fontSize={op.size}
          fill={inks[op.tone]}
          {...families[op.face]}
          {...turn}
          xmlSpace="preserve"
        >
          {op.text}
        </text>
      );
    }
    case 'line':
      return (
        <line
          key={key}
          x1={op.x1}
          y1={height - op.y1}
          x2={op.x2}
          y2={height - op.y2}
          stroke={inks[op.tone]}
          strokeWidth={op.width}
          {...dashes(op.dash)}
        />
      );
    case 'rect':
      return (
        <rect
          key={key}
          x={op.x}
          y={height - op.y - op.height}
          width={op.width}
          height={op.height}
          fill={op.fill === undefined ? 'none' : inks[op.fill]}
          stroke={op.stroke === undefined ? 'none' : inks[op.stroke]}
          strokeWidth={op.lineWidth ?? 1}
          {...dashes(op.dash)}
        />
      );
    case 'shape': {
      const path = op.points.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${x} ${height - y}`).join('');
      return (
        <path
          key={key}
          d={op.closed ? `${path}Z` : path}
          fill={op.fill === undefined ? 'none' : inks[op.fill]}
          stroke={op.stroke === undefined ? 'none' : inks[op.stroke]}
          strokeWidth={op.lineWidth ?? 1}
          {...dashes(op.dash)}
        />
      );
    }
  }
}

export interface SheetPictureProps {
  readonly drawing: Drawing;
  readonly title: string;
  /** Sheets it leads to are pressed like links. */
  readonly onSheet?: ((sheet: number) => void) | undefined;
}

/** A click on one of the places that lead on; the index itself names them for the keyboard. */
function useShortCut(onSheet: SheetPictureProps['onSheet']) {
  const picture = useRef<SVGSVGElement>(null);
  const follow = useEffectEvent((event: Event) => {
    const { target } = event;
    const to = target instanceof SVGElement ? target.getAttribute('data-to-sheet') : null;
    if (to !== null) onSheet?.(Number(to));
  });
  useEffect(() => {
    const element = picture.current;
    const hear = (event: Event): void => follow(event);
    element?.addEventListener('click', hear);
    return () => element?.removeEventListener('click', hear);
  }, []);
  return picture;
}

/** A sheet the program writes, drawn straight from the plan: what you see is what is assembled. */
export function SheetPicture({ drawing, title, onSheet }: SheetPictureProps) {
  const { width, height, ops, links } = drawing;
  const picture = useShortCut(onSheet);
  return (
    <svg className="sheet-picture" viewBox={`0 0 ${width} ${height}`} role="img" aria-label={title} ref={picture}>
      {ops.map((op, at) => drawOp(op, height, at))}
      {onSheet === undefined
        ? null
        : links.map((link) => (
            <rect
              key={`${link.x} ${link.y}`}
              x={link.x}
              y={height - link.y - link.height}
              width={link.width}
              height={link.height}
              fill="transparent"
              data-to-sheet={link.toSheet}
            />
          ))}
    </svg>
  );
}
