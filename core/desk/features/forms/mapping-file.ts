import { readFile, stat } from 'node:fs/promises';
import { isDeepStrictEqual } from 'node:util';
import { parse } from 'yaml';
import type { PracticeLayer } from '../../../store/index.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { AtLot } from '../../context.ts';

/** What a file of mappings may hold: the forms, and the questions and conditions they rest on. */
const sections = ['basis', 'questions', 'conditions', 'forms'];
const largest = 1_000_000;

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** A layer as it is written; what can't be read as YAML is told when it is read. */
function saidIn(text: string): Readonly<Record<string, unknown>> {
  try {
    const said: unknown = parse(text, { logLevel: 'error' });
    return isRecord(said) ? said : {};
  } catch {
    return {};
  }
}

/** Sections of a layer that are no business of a mapping. */
function otherSections(text: string, allowed = sections): readonly string[] {
  return Object.keys(saidIn(text)).filter((key) => !allowed.includes(key));
}

/** Questions and conditions that stand in the other layers and would be others by this one. */
function changedRules(text: string, others: readonly PracticeLayer[]): readonly string[] {
  const said = saidIn(text);
  const below = others.map((layer) => saidIn(layer.text));
  return ['questions', 'conditions'].flatMap((section) => {
    const rules = said[section];
    if (!isRecord(rules)) return [];
    return Object.entries(rules).flatMap(([id, rule]) => {
      const known = below.flatMap((layer) => {
        const there = layer[section];
        return isRecord(there) && Object.hasOwn(there, id) ? [there[id]] : [];
      });
      const same = known.every((one) => isDeepStrictEqual(one, rule));
      return same ? [] : [id];
    });
  });
}

function refused(name: string, say: string, next: string): LotfileError {
  return new LotfileError('wrong use', `"${name}" ${say}`, { about: name, next });
}

/**
 * A practice file with mappings, as a layer of this lot's practice. One taken over before under the same name is
 * replaced; a name that another layer bears is not.
 */
export async function mappingLayer(
  ticket: string,
  layers: readonly PracticeLayer[],
  at: AtLot,
): Promise<PracticeLayer> {
  const { path, name } = at.tickets.look(ticket);
  const unread = (cause: unknown): never => {
    throw new LotfileError('wrong use', `"${name}" can't be read.`, {
      about: name,
      next: 'See that it is there.',
      cause,
    });
  };
  if ((await stat(path).catch(unread)).size > largest)
    throw refused(name, 'is larger than any practice file.', 'Give the file with the mapping.');
  const text = await readFile(path, 'utf8').catch(unread);
  const others = otherSections(text);
  if (others.length > 0) {
    const next = 'Only forms, and the questions and conditions they ask, are taken over into a lot that is there.';
    throw refused(name, `changes more than forms: ${others.join(', ')}.`, next);
  }
  const there = layers.find((layer) => layer.name === name);
  // Files taken over before might bear a title of their own.
  const own = there === undefined || otherSections(there.text, [...sections, 'title']).length === 0;
  const laid = own ? name : `${name} (forms)`;
  const changed = changedRules(
    text,
    layers.filter((layer) => layer.name !== laid),
  );
  if (changed.length > 0) {
    const next = 'A form asks what is asked here already as it is; give what it asks besides an id of its own.';
    throw refused(name, `changes what stands here already: ${changed.join(', ')}.`, next);
  }
  return { name: laid, text };
}
