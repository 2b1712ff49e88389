import { parse, stringify } from 'yaml';
import { figures } from '../../../figures/index.ts';
import type { PracticeLayer } from '../../../store/index.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { Practice } from '../../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../../context.ts';
import type { MapAnswer } from '../../contract/form-answers.ts';
import { type RequestInput, requests } from '../../contract/requests.ts';
import { kindTitle } from '../../named.ts';
import { acted } from '../record-card.ts';
import { mappingLayer } from './mapping-file.ts';

/** What the owner said so far of one form, as a layer of local practice: it is read, kept and undone like any other. */
function layerName(form: string): string {
  return `form ${form}, as you mapped it`;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function partOf(value: unknown, key: string): Record<string, unknown> {
  const part = isRecord(value) ? value[key] : undefined;
  return isRecord(part) ? part : {};
}

/** A box as a mapping writes it. */
function boxText(said: string, as: string | undefined): unknown {
  if (said === 'leave') return { leave: 'left empty on purpose' };
  if (said === 'by hand' || said === 'drop') return said;
  const sources = said.split('+').map((part) => part.trim());
  const is = sources.length === 1 ? (sources[0] ?? said) : sources;
  return as === undefined ? is : { is, as };
}

/** The need's own words for a form nobody gave a title. */
function titleFor(practice: Practice, form: string): string {
  const need = Object.values(practice.errands)
    .flatMap(({ needs }) => needs)
    .find(({ fill }) => fill === `forms/${form}`);
  if (need === undefined) {
    throw new LotfileError('not found', `No need here asks for a form called "${form}".`, {
      about: form,
      next: 'A need says "fill: forms/application" for the form "application".',
    });
  }
  return kindTitle(practice, need.kinds[0] ?? form);
}

interface Laid {
  readonly layers: readonly PracticeLayer[];
  /** The practice as the other layers have it. */
  readonly below: Practice;
}

/** What only this layer said is forgotten with it; what a layer below says is dropped by word. */
function laidBoxes(said: RequestInput<'map-form'>, known: Record<string, unknown>, { below }: Laid) {
  const laid = { ...known };
  const theirs = new Set(below.forms?.[said.form]?.boxes.map(({ field }) => field));
  for (const [box, source] of Object.entries(said.fills)) {
    if (source === 'drop' && !theirs.has(box)) delete laid[box];
    else laid[box] = boxText(source, said.prints[box]);
  }
  return laid;
}

/** On whose word the form stands in the layers below, as a practice file writes it. */
function basisOf(below: Practice, form: string): { readonly basis?: object } {
  const basis = below.forms?.[form]?.basis;
  if (basis === undefined || basis.on === 'common practice') return {};
  if (basis.on === 'published') return { basis: { published: basis.source, read: basis.read } };
  return { basis: { 'told by': basis.who, on: basis.day, ...(basis.note === undefined ? {} : { note: basis.note }) } };
}

function layerWith(said: RequestInput<'map-form'>, given: Laid): PracticeLayer {
  const { form, title, flatten } = said;
  const name = layerName(form);
  const before = given.layers.find((layer) => layer.name === name);
  const known = partOf(partOf(before === undefined ? {} : parse(before.text, { logLevel: 'error' }), 'forms'), form);
  const rule = {
    ...known,
    title: title ?? known.title ?? given.below.forms?.[form]?.title ?? titleFor(given.below, form),
    ...(flatten === undefined ? {} : { flatten: flatten ? 'yes' : 'no' }),
    boxes: laidBoxes(said, partOf(known, 'boxes'), given),
    // Touching a box doesn't take the office's word from the rest.
    ...basisOf(given.below, form),
  };
  return { name, text: stringify({ forms: { [form]: rule } }, { lineWidth: 0 }) };
}

/** A layer laid in the place of the one of its name, or on top. */
function laidIn(layer: PracticeLayer, layers: readonly PracticeLayer[]): readonly PracticeLayer[] {
  const there = layers.some(({ name }) => name === layer.name);
  return there ? layers.map((one) => (one.name === layer.name ? layer : one)) : [...layers, layer];
}

/**
 * Says what fills boxes of a form, or takes a file of mappings over. The practice is read anew, so that a source that
 * is nothing is told at once, and what was in use stays in use.
 */
export const mapForm = onLot(requests['map-form'], async (said, at: AtLot): Promise<MapAnswer> => {
  const { readPractice } = await import('../../../practice/index.ts');
  const options = { figures: Object.keys(figures) };
  const { file } = said;
  const before = at.lot.layers();
  const layers = file === undefined ? before : laidIn(await mappingLayer(file, before, at), before);
  const others = layers.filter(({ name }) => name !== layerName(said.form));
  const below =
    layers === before && others.length === layers.length ? at.lot.practice() : readPractice(others, options);
  const worded = file === undefined || Object.keys(said.fills).length > 0;
  const all = worded ? laidIn(layerWith(said, { layers, below }), layers) : layers;
  const practice = readPractice(all, options);
  const form = practice.forms?.[said.form];
  if (form === undefined) {
    throw new LotfileError('wrong use', `The file maps no form "${said.form}".`, {
      about: said.form,
      next: `It maps: ${Object.keys(practice.forms ?? {}).join(', ') || 'none'}.`,
    });
  }
  const { act } = acted(at, `Said what fills ${form.title}`, () => at.lot.setPractice({ practice, layers: all }));
  return { act, form: said.form, boxes: form.boxes.length };
});
