import type { Layer } from './yaml-tree.ts';

/** Between two layers of one file, as YAML itself divides documents. */
const divider = /^---[ \t]*(?:#.*)?$/m;

function comment(text: string): string {
  return text.replaceAll(/\s+/g, ' ').trim();
}

/**
 * Several layers as one text, in the order they are laid over each other; each keeps its own word. `readLayerFile`
 * takes it apart again.
 * @param head lines for whoever opens it
 */
export function writeLayerFile(layers: readonly Layer[], head: readonly string[]): string {
  const parts = layers.map(({ name, text }) => `--- # ${comment(name)}\n${text.trim()}\n`);
  return `${head.map((line) => `# ${comment(line)}\n`).join('')}${parts.join('')}`;
}

function isEmpty(text: string): boolean {
  return text.split('\n').every((line) => line.trim() === '' || line.trim().startsWith('#'));
}

/**
 * The layers of one practice file: usually one; where several stand in it, divided by "---", each by itself. They bear
 * the file's name, from the second on with a number.
 */
export function readLayerFile({ name, text }: Layer): readonly Layer[] {
  const parts = text
    .replaceAll('\r\n', '\n')
    .split(divider)
    .filter((part) => !isEmpty(part));
  if (parts.length < 2) return [{ name, text: parts[0] ?? text }];
  return parts.map((part, at) => ({ name: at === 0 ? name : `${name} (${at + 1})`, text: part.trimStart() }));
}
