import type { BoxReading } from '../../../forms/form-model.ts';
import { sourceValue } from '../../../forms/source-value.ts';
import type { KeptFact } from '../../../store/index.ts';
import type { FactSort } from '../../../vocabulary/facts.ts';
import type { FormBox, FormSource } from '../../../vocabulary/forms.ts';
import type { FactRule, PaperKind } from '../../../vocabulary/practice.ts';
import { type FormAt, mappingOf } from './form-case.ts';

/** What a name, place or parcel is as a fact of a paper. */
const identitySort: Partial<Readonly<Record<FormSource['of'], FactSort>>> = {
  owner: 'name',
  place: 'address',
  parcel: 'parcel number',
};

/** The fact of the filled paper that a box shows: as the mapping says, of the same id, or the only one of its sort. */
function factFor(box: Extract<FormBox, { do: 'write' }>, kind: PaperKind): FactRule | undefined {
  if (box.fact !== undefined) return kind.facts[box.fact];
  const [source] = box.sources;
  if (source === undefined || box.sources.length > 1) return undefined;
  const sort = identitySort[source.of];
  if (sort !== undefined) return Object.values(kind.facts).find((fact) => fact.sort === sort);
  const id = source.of === 'lot' ? source.question : source.of === 'paper' ? source.fact : undefined;
  return id === undefined ? undefined : kind.facts[id];
}

/** A form that names each owner in a box of their own shows all of them. */
function whole(source: FormSource): FormSource {
  return source.of === 'owner' ? { of: 'owner' } : source;
}

/** Facts of the filled copy, read off what was filled in, each with its place on the page. */
export function filledFacts(given: FormAt, boxes: readonly BoxReading[]): readonly KeptFact[] {
  const kind = given.asked.practice.papers[given.kind];
  if (kind === undefined) return [];
  const filled = new Map(boxes.filter(({ state }) => state === 'filled').map((box) => [box.field, box]));
  const found = new Map<string, KeptFact>();
  for (const box of mappingOf(given).boxes) {
    const reading = filled.get(box.field);
    if (reading === undefined || box.do !== 'write') continue;
    const rule = factFor(box, kind);
    const [source] = box.sources;
    if (rule === undefined || source === undefined || found.has(rule.id)) continue;
    const value = sourceValue({ at: given.standpoint, subject: given.subject }, whole(source));
    if (value.is !== 'known' || value.value.sort !== rule.sort) continue;
    found.set(rule.id, { fact: rule.id, value: value.value, page: reading.place?.page, place: reading.place?.rect });
  }
  return [...found.values()];
}
