import { PDFArray, PDFDict, PDFName, type PDFObject, type PDFPage, PDFStream } from 'pdf-lib';
import type { SeenRect } from '../../vocabulary/lot.ts';
import type { BlankField, FieldOption, FieldPlace, FieldSort, WantedSort } from '../form-model.ts';
import { saysNo } from '../yes-or-no.ts';
import { arrayAt, dictAt, type FieldNode, numberOf, textOf, type Widget } from './form-tree.ts';

/** Bits of /Ff (ISO 32000-1, tables 221, 226, 228, 230). */
const bits = {
  readOnly: 1 << 0,
  required: 1 << 1,
  multiline: 1 << 12,
  password: 1 << 13,
  radio: 1 << 15,
  push: 1 << 16,
  combo: 1 << 17,
  ownWords: 1 << 18,
  file: 1 << 20,
  comb: 1 << 24,
} as const;

export type Flag = keyof typeof bits;

export function hasFlag({ inherited }: FieldNode, flag: Flag): boolean {
  return ((numberOf(inherited('Ff')) ?? 0) & bits[flag]) !== 0;
}

export function sortOf(node: FieldNode): FieldSort | undefined {
  switch (textOf(node.inherited('FT'))) {
    case 'Tx':
      return hasFlag(node, 'password') || hasFlag(node, 'file') ? 'button' : 'text';
    case 'Ch':
      return 'choice';
    case 'Sig':
      return 'signature';
    case 'Btn':
      if (hasFlag(node, 'push')) return 'button';
      return hasFlag(node, 'radio') ? 'radio' : 'tick box';
    default:
      return undefined;
  }
}

/** "/Helv 12 Tf 0 g" taken apart (ISO 32000-1, 12.7.3.3); size 0 means as large as fits. */
export function defaultLook(text: string): { readonly font: string; readonly size: number; readonly ink: string } {
  const found = /\/([^\s()<>[\]{}/%]+)\s+(-?[\d.]+)\s+Tf/.exec(text);
  const ink = /((?:[\d.]+\s+){1,4}(?:g|rg|k))(?=\s|$)/.exec(text)?.[1] ?? '0 g';
  return { font: found?.[1] ?? 'Helv', size: Math.abs(Number(found?.[2] ?? 0)) || 0, ink };
}

/** The state a widget takes when it is on: as its looks name it, or as we name it where it has none. */
export function onState({ dict, kid }: Widget, node: FieldNode): string {
  const looks = dictAt(dictAt(dict, 'AP'), 'N');
  const own = looks?.keys().filter((key) => key !== PDFName.of('Off')) ?? [];
  // A form that calls its empty look "No" has two: the mark is the other one.
  const [first] = own.length > 1 ? own.filter((key) => !saysNo(key.decodeText())) : own;
  if (first !== undefined) return first.decodeText();
  if (node.inherited('Opt') instanceof PDFArray && node.widgets.length > 1) return String(kid);
  return hasFlag(node, 'radio') ? `Choice${kid + 1}` : 'Yes';
}

/** One option per state; /Opt gives the words people read (ISO 32000-1, 12.7.4.2.3). */
function stateOptions(node: FieldNode): readonly FieldOption[] {
  const words = node.inherited('Opt');
  const options = new Map<string, FieldOption>();
  for (const widget of node.widgets) {
    const value = onState(widget, node);
    const said = words instanceof PDFArray ? textOf(words.lookup(widget.kid)) : undefined;
    if (!options.has(value)) options.set(value, { value, label: said ?? value });
  }
  return [...options.values()];
}

export function choiceOptions({ inherited }: FieldNode): readonly FieldOption[] {
  const list = inherited('Opt');
  if (!(list instanceof PDFArray)) return [];
  return Array.from({ length: list.size() }, (_, n) => list.lookup(n)).flatMap((item): readonly FieldOption[] => {
    const value = textOf(item instanceof PDFArray ? item.lookup(0) : item);
    const label = item instanceof PDFArray ? textOf(item.lookup(1)) : value;
    return value === undefined ? [] : [{ value, label: label ?? value }];
  });
}

function scriptOf(node: FieldNode, when: string): string | undefined {
  const actions = node.inherited('AA');
  const script = actions instanceof PDFDict ? dictAt(actions, when)?.lookup(PDFName.of('JS')) : undefined;
  if (script instanceof PDFStream) return script.getContentsString();
  return textOf(script);
}

function wantsOf(node: FieldNode): WantedSort | undefined {
  const script = `${scriptOf(node, 'F') ?? ''} ${scriptOf(node, 'K') ?? ''}`;
  if (/AFDate_/.test(script)) return 'date';
  return /AF(Number|Percent|SimpleCalc)_?/.test(script) ? 'number' : undefined;
}

export function rectOf(dict: PDFDict): SeenRect | undefined {
  const list = arrayAt(dict, 'Rect');
  const [a, b, c, d] = Array.from({ length: 4 }, (_, n) => numberOf(list?.lookup(n)));
  if (a === undefined || b === undefined || c === undefined || d === undefined) return undefined;
  return { x: Math.min(a, c), y: Math.min(b, d), width: Math.abs(c - a), height: Math.abs(d - b) };
}

/** Quarter turns of the widget's own content, counterclockwise (/MK /R). */
export function turnOf(dict: PDFDict): 0 | 90 | 180 | 270 {
  const turn = (((numberOf(dictAt(dict, 'MK')?.lookup(PDFName.of('R'))) ?? 0) % 360) + 360) % 360;
  return turn === 90 || turn === 180 || turn === 270 ? turn : 0;
}

export function borderOf(dict: PDFDict): number {
  const width = numberOf(dictAt(dict, 'BS')?.lookup(PDFName.of('W')));
  return width ?? (arrayAt(dictAt(dict, 'MK'), 'BC') === undefined ? 0 : 1);
}

/** A rectangle of the page's own units on the page as seen: turned and cropped. */
function seen(rect: SeenRect, page: PDFPage): SeenRect {
  const crop = page.getCropBox();
  const unit = numberOf(page.node.lookup(PDFName.of('UserUnit'))) ?? 1;
  const [x, y] = [rect.x - crop.x, rect.y - crop.y];
  const turned = ((page.getRotation().angle % 360) + 360) % 360;
  const at = ((): SeenRect => {
    switch (turned) {
      case 90:
        return { x: y, y: crop.width - x - rect.width, width: rect.height, height: rect.width };
      case 180:
        return { ...rect, x: crop.width - x - rect.width, y: crop.height - y - rect.height };
      case 270:
        return { x: crop.height - y - rect.height, y: x, width: rect.height, height: rect.width };
      default:
        return { ...rect, x, y };
    }
  })();
  return { x: at.x * unit, y: at.y * unit, width: at.width * unit, height: at.height * unit };
}

export function placeOf({ dict, page }: Widget, pages: readonly PDFPage[]): FieldPlace | undefined {
  const rect = rectOf(dict);
  const on = pages[page];
  if (rect === undefined || on === undefined || rect.width <= 0 || rect.height <= 0) return undefined;
  const lies = turnOf(dict) % 180 !== 0;
  const [width, height] = lies ? [rect.height, rect.width] : [rect.width, rect.height];
  return { page, rect: seen(rect, on), width, height, border: borderOf(dict) };
}

const aligned = ['left', 'centre', 'right'] as const;

function shownValue(value: PDFObject | undefined): string | undefined {
  const text = textOf(value instanceof PDFArray ? value.lookup(0) : value);
  return text === undefined || text === '' || text === 'Off' ? undefined : text;
}

/** A field as the rest of the program sees it; undefined for a field of no sort. */
export function fieldFacts(
  node: FieldNode,
  at: { readonly pages: readonly PDFPage[]; readonly look: string },
): BlankField | undefined {
  const sort = sortOf(node);
  if (sort === undefined) return undefined;
  const longest = numberOf(node.inherited('MaxLen'));
  const { size } = defaultLook(textOf(node.inherited('DA')) ?? at.look);
  const multiline = sort === 'text' && hasFlag(node, 'multiline');
  const states = sort === 'radio' || sort === 'tick box';
  return {
    name: node.name,
    sort,
    hint: textOf(node.inherited('TU')),
    required: hasFlag(node, 'required'),
    readOnly: hasFlag(node, 'readOnly'),
    multiline,
    comb: sort === 'text' && hasFlag(node, 'comb') && longest !== undefined && !multiline,
    ownWords: sort === 'choice' && hasFlag(node, 'ownWords'),
    longest: sort === 'text' && longest !== undefined && longest > 0 ? longest : undefined,
    size,
    align: aligned[numberOf(node.inherited('Q')) ?? 0] ?? 'left',
    options: states ? stateOptions(node) : sort === 'choice' ? choiceOptions(node) : [],
    value: shownValue(node.inherited('V')),
    wants: wantsOf(node),
    worked: scriptOf(node, 'C') !== undefined,
    places: node.widgets.flatMap((widget) => {
      const place = placeOf(widget, at.pages);
      if (place === undefined) return [];
      return states ? { ...place, on: onState(widget, node) } : place;
    }),
  };
}
