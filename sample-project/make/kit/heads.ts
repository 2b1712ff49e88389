import type { Flow, HouseStyle } from './flow.ts';
import { black, blue, type Colour, green, grey } from './ink.ts';

const plum: Colour = [0.33, 0.16, 0.36];
const brown: Colour = [0.36, 0.23, 0.1];
const teal: Colour = [0.08, 0.33, 0.38];

/** How each office's papers are set. */
export const styles = {
  county: { body: 'serif', bold: 'serifBold', size: 11, margin: 66, ink: green },
  health: { body: 'sans', bold: 'sansBold', size: 10, margin: 54, ink: black },
  roads: { body: 'mono', bold: 'monoBold', size: 9.5, margin: 58, ink: black },
  building: { body: 'sans', bold: 'sansBold', size: 10.5, margin: 50, ink: [0.1, 0.16, 0.3] },
  recorder: { body: 'serif', bold: 'serifBold', size: 11.5, margin: 72, ink: black },
  flood: { body: 'human', bold: 'humanBold', size: 10.5, margin: 66, ink: teal },
  power: { body: 'human', bold: 'humanBold', size: 10.5, margin: 62, ink: blue },
  lender: { body: 'human', bold: 'slabBold', size: 10.5, margin: 66, ink: brown },
  insurer: { body: 'human', bold: 'humanBold', size: 10.5, margin: 54, ink: plum },
  trade: { body: 'slab', bold: 'slabBold', size: 9, margin: 56, ink: black },
  tester: { body: 'human', bold: 'humanBold', size: 10.5, margin: 54, ink: teal },
  maker: { body: 'mono', bold: 'monoBold', size: 8.5, margin: 46, ink: black },
} as const satisfies Record<string, HouseStyle>;

/** County letterhead: centred, a double rule. */
export function countyHead(flow: Flow, office: string, lines: readonly string[]): Flow {
  const { leaf, style } = flow;
  leaf.text([leaf.width / 2, 52], 'BRINDLEMOOR COUNTY', {
    face: style.bold,
    size: 17,
    align: 'centre',
    colour: style.ink,
  });
  leaf.text([leaf.width / 2, 69], office, { face: style.body, size: 11.5, align: 'centre', colour: style.ink });
  leaf.text([leaf.width / 2, 83], lines.join('   •   '), { face: style.body, size: 8, align: 'centre', colour: grey });
  leaf.line([flow.left, 91], [flow.right, 91], { width: 1.6, colour: style.ink });
  leaf.line([flow.left, 94], [flow.right, 94], { width: 0.5, colour: style.ink });
  flow.y = 108;
  return flow;
}

/** A firm's letterhead: name at left, lines at right. */
export function firmHead(flow: Flow, name: string, lines: readonly string[]): Flow {
  const { leaf, style } = flow;
  leaf.text([flow.left, 58], name, { face: style.bold, size: 19, colour: style.ink });
  lines.forEach((line, i) => {
    leaf.text([flow.right, 46 + i * 10.5], line, { face: style.body, size: 8, align: 'right', colour: grey });
  });
  leaf.line([flow.left, 74], [flow.right, 74], { width: 2.4, colour: style.ink });
  flow.y = 86;
  return flow;
}

/** A form's head: title in a band, number at right. */
export function formHead(flow: Flow, look: { office: string; title: string; number: string }): Flow {
  const { leaf, style } = flow;
  leaf.text([flow.left, 42], look.office, { face: style.body, size: 8.5, colour: style.ink });
  leaf.box([flow.left, 48], [flow.width, 26], { fill: style.ink, width: 0 });
  leaf.text([flow.left + 8, 66], look.title, { face: style.bold, size: 13.5, colour: [1, 1, 1] });
  leaf.text([flow.right - 8, 66], look.number, { face: style.bold, size: 10, colour: [1, 1, 1], align: 'right' });
  flow.y = 84;
  return flow;
}
