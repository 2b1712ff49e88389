import { readdirSync, readFileSync } from 'node:fs';

const folder = new URL('practice/', import.meta.url);

/** The invented county's own rules, to be laid over common practice. */
export function sampleLayers(): { readonly name: string; readonly text: string }[] {
  return readdirSync(folder)
    .sort()
    .map((name) => ({ name, text: readFileSync(new URL(name, folder), 'utf8') }));
}
