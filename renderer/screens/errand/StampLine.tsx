import type { PlanStamp } from '../../../core/packet/plan-model.ts';

/** On paper the tones are those of print, whatever light the window has. */
const pencil = '#5C6468';
const violet = '#5A2D82';
const red = '#9E2A1C';
const face = "'Source Sans 3'";

export interface StampLineProps {
  readonly stamp: PlanStamp;
  readonly width: number;
  readonly height: number;
}

/** The margin line where it will stand on the page: DRAFT when it is one, the words, one segment per tab. */
export function StampLine({ stamp, width, height }: StampLineProps) {
  const { strip, text, tabs, tab, draft } = stamp;
  const lying = strip.width >= strip.height;
  const [length, thick] = lying ? [strip.width, strip.height] : [strip.height, strip.width];
  const size = Math.min(7.5, thick / 1.06, (length - 12) / ((text.length + (draft ? 6 : 0)) * 0.52));
  const lead = draft ? size * 3.4 + 5 : 0;
  const barAt = lead + text.length * size * 0.5 + 8;
  const segment = Math.min(size, (length - barAt - 2) / Math.max(1, tabs));
  const place = lying
    ? `translate(${strip.x} ${height - strip.y})`
    : `translate(${strip.x + strip.width} ${height - strip.y}) rotate(-90)`;
  const base = -(thick - size * 0.66) / 2;
  const segments = [...Array(tabs).keys()];
  return (
    <svg className="errand-stamp" viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <g transform={place} fontFamily={face} fontSize={size}>
        {draft ? (
          <text x="1" y={base} fill={red}>
            DRAFT
          </text>
        ) : null}
        <text x={1 + lead} y={base} fill={pencil}>
          {text}
        </text>
        {segment < 1.2
          ? null
          : segments.map((at) => (
              <rect
                key={at}
                x={barAt + at * segment}
                y={base - size * 0.5}
                width={segment * 0.75}
                height={size * 0.5}
                fill={at + 1 === tab ? violet : 'none'}
                stroke={violet}
                strokeWidth="0.3"
              />
            ))}
      </g>
    </svg>
  );
}
