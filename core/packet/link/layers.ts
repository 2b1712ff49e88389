import type { SourceCopy } from './source-copy.ts';
import { textString } from './syntax/text-string.ts';
import {
  dict,
  FinishedRef,
  isArray,
  isDict,
  name,
  nameOf,
  type PdfArray,
  type PdfDict,
  PdfRef,
  type PdfValue,
} from './syntax/values.ts';

interface Union {
  readonly groups: FinishedRef[];
  readonly off: FinishedRef[];
  readonly locked: FinishedRef[];
  readonly order: PdfValue[];
  readonly radio: PdfValue[];
  readonly usage: PdfValue[];
}

/**
 * The layers of all sources in one dictionary, each with the state its author left it in: what was hidden stays
 * hidden. Layers nothing used leads to stay out. Undefined when there are none (ISO 32000-1, 8.11.4).
 */
export function uniteLayers(sources: readonly SourceCopy[]): PdfDict | undefined {
  const union: Union = { groups: [], off: [], locked: [], order: [], radio: [], usage: [] };
  for (const source of sources) takeIn(source, union);
  if (union.groups.length === 0) return undefined;
  const state = dict({
    BaseState: name('ON'),
    OFF: union.off,
    Order: union.order,
    Locked: union.locked,
    RBGroups: union.radio,
    AS: union.usage,
  });
  return dict({ OCGs: union.groups, D: state });
}

function takeIn(source: SourceCopy, union: Union): void {
  const properties = source.dictOf(source.catalog.get('OCProperties'));
  const groups = copied(source, properties?.get('OCGs'));
  if (properties === undefined || groups.length === 0) return;
  const state = source.dictOf(properties.get('D'));
  union.groups.push(...groups);
  union.off.push(...hidden(source, state, groups));
  union.locked.push(...copied(source, state?.get('Locked')));
  const order = orderOf(source, state?.get('Order'), 0);
  if (order.length > 0) union.order.push([textString(source.file.title), ...order]);
  const radio = source.file.resolve(state?.get('RBGroups'));
  for (const set of isArray(radio) ? radio : []) {
    const members = copied(source, set);
    if (members.length > 1) union.radio.push(members);
  }
  const usage = source.file.resolve(state?.get('AS'));
  for (const entry of isArray(usage) ? usage : []) {
    const made = usageOf(source, source.dictOf(entry));
    if (made !== undefined) union.usage.push(made);
  }
}

/** Layers off by default: named so, or not named on where everything starts off. */
function hidden(source: SourceCopy, state: PdfDict | undefined, all: readonly FinishedRef[]): readonly FinishedRef[] {
  const off = copied(source, state?.get('OFF'));
  if (nameOf(source.file.resolve(state?.get('BaseState'))) !== 'OFF') return off;
  const on = new Set(copied(source, state?.get('ON')).map((ref) => ref.num));
  return all.filter((ref) => !on.has(ref.num));
}

/** Finished references of the listed groups that came along. */
function copied(source: SourceCopy, list: PdfValue | undefined): FinishedRef[] {
  const found = source.file.resolve(list);
  const kept: FinishedRef[] = [];
  for (const ref of isArray(found) ? found : []) {
    if (ref instanceof PdfRef && source.isCopied(ref)) kept.push(new FinishedRef(source.mapRef(ref)));
  }
  return kept;
}

/** The tree shown in a reader's layer list: groups, labels and nested lists; branches without groups go. */
function orderOf(source: SourceCopy, value: PdfValue | undefined, depth: number): PdfArray {
  const found = source.file.resolve(value);
  if (!isArray(found) || depth > 32) return [];
  const made: PdfValue[] = [];
  for (const item of found) {
    const inner = source.file.resolve(item);
    if (isArray(inner)) {
      const below = orderOf(source, inner, depth + 1);
      if (below.some((part) => part instanceof FinishedRef || isArray(part))) made.push(below);
    } else if (isDict(inner)) made.push(...copied(source, [item]));
    else made.push(inner);
  }
  return made;
}

function usageOf(source: SourceCopy, entry: PdfDict | undefined): PdfDict | undefined {
  const groups = copied(source, entry?.get('OCGs'));
  const event = nameOf(source.file.resolve(entry?.get('Event')));
  const category = source.file.resolve(entry?.get('Category'));
  if (groups.length === 0 || event === undefined || !isArray(category)) return undefined;
  return dict({ Event: name(event), OCGs: groups, Category: category.map((part) => source.file.resolve(part)) });
}
