import { readFile } from 'node:fs/promises';
import { parse } from 'yaml';
import type { PracticeLayer } from '../../../store/index.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { AtLot } from '../../context.ts';

/** What a file of mappings may hold: the forms, and the questions and conditions they rest on. */
const sections = ['title', 'basis', 'questions', 'conditions', 'forms'];
const largest = 1_000_000;

/** Sections of a layer that are no business of a mapping; what can't be read as YAML is told when it is read. */
function otherSections(text: string): readonly string[] {
  try {
    const said: unknown = parse(text);
    return typeof said === 'object' && said !== null ? Object.keys(said).filter((key) => !sections.includes(key)) : [];
  } catch {
    return [];
  }
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
  const text = await readFile(path, 'utf8').catch((cause: unknown) => {
    throw new LotfileError('wrong use', `"${name}" can't be read.`, {
      about: name,
      next: 'See that it is there.',
      cause,
    });
  });
  if (text.length > largest)
    throw refused(name, 'is larger than any practice file.', 'Give the file with the mapping.');
  const others = otherSections(text);
  if (others.length > 0) {
    const next = 'Only forms, and the questions and conditions they ask, are taken over into a lot that is there.';
    throw refused(name, `changes more than forms: ${others.join(', ')}.`, next);
  }
  const there = layers.find((layer) => layer.name === name);
  return { name: there === undefined || otherSections(there.text).length === 0 ? name : `${name} (forms)`, text };
}
