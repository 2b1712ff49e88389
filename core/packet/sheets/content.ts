import type { Drawing, DrawOp, Face, Tone } from '../../typeset/drawing.ts';

/** The look's colours as red, green, blue from 0 to 1. Sheets stand on bare paper: 'page' is its white. */
const tones: Readonly<Record<Tone, string>> = {
  ink: hex('22282B'),
  pencil: hex('5C6468'),
  violet: hex('5A2D82'),
  red: hex('9E2A1C'),
  ochre: hex('6E4A00'),
  green: hex('2F5A46'),
  card: hex('EFE6D0'),
  page: '1 1 1',
};

function hex(code: string): string {
  const part = (at: number): string => short(Number.parseInt(code.slice(at, at + 2), 16) / 255);
  return `${part(0)} ${part(2)} ${part(4)}`;
}

/** A number for a content stream: no exponent, three places are a hundredth of a hair. */
function short(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

export type EncodeText = (face: Face, text: string) => { readonly name: string; readonly hex: string };

/** The PDF content stream of a drawing (ISO 32000-1, 8.4 and 9.4). */
export function contentOf(drawing: Drawing, encode: EncodeText): { readonly content: string } {
  return { content: drawing.ops.map((op) => operatorsOf(op, encode)).join('\n') };
}

function operatorsOf(op: DrawOp, encode: EncodeText): string {
  switch (op.op) {
    case 'text': {
      const { name, hex: codes } = encode(op.face, op.text);
      const matrix =
        op.turn === 90 ? `0 1 -1 0 ${short(op.x)} ${short(op.y)}` : `1 0 0 1 ${short(op.x)} ${short(op.y)}`;
      return `BT ${tones[op.tone]} rg /${name} ${op.size} Tf ${matrix} Tm <${codes}> Tj ET`;
    }
    case 'line':
      return stroked(
        `${short(op.x1)} ${short(op.y1)} m ${short(op.x2)} ${short(op.y2)} l S`,
        op.tone,
        op.width,
        op.dash,
      );
    case 'rect': {
      const path = `${short(op.x)} ${short(op.y)} ${short(op.width)} ${short(op.height)} re`;
      return painted(path, op);
    }
    case 'shape': {
      const path = op.points.map(([x, y], index) => `${short(x)} ${short(y)} ${index === 0 ? 'm' : 'l'}`).join(' ');
      return painted(op.closed ? `${path} h` : path, op);
    }
  }
}

interface Paint {
  readonly fill?: Tone | undefined;
  readonly stroke?: Tone | undefined;
  readonly lineWidth?: number | undefined;
  readonly dash?: readonly number[] | undefined;
}

function painted(path: string, { fill, stroke, lineWidth = 0.75, dash }: Paint): string {
  const filled = fill === undefined ? '' : `${tones[fill]} rg ${path} f`;
  return stroke === undefined ? filled : `${filled}\n${stroked(`${path} S`, stroke, lineWidth, dash)}`;
}

function stroked(path: string, tone: Tone, width: number, dash?: readonly number[]): string {
  return `q ${tones[tone]} RG ${short(width)} w ${dash === undefined ? '' : `[${dash.map(short).join(' ')}] 0 d `}${path} Q`;
}
