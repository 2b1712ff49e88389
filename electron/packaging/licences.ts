import * as z from 'zod';

/** What travels with the program, and under which terms. */
export interface LicenceRow {
  readonly name: string;
  readonly version: string;
  /** SPDX expression as the package states it; empty where it states none. */
  readonly licence: string;
}

const lockSchema = z.object({
  packages: z.record(
    z.string(),
    z.object({
      version: z.string().optional(),
      license: z.string().optional(),
      dev: z.boolean().optional(),
      link: z.boolean().optional(),
    }),
  ),
});

/** Built into the desktop program although npm counts it among the tools. */
const shippedTools = ['electron'];

/** Everything in a package-lock that travels with the program, by name. */
export function licencesIn(lock: unknown): readonly LicenceRow[] {
  const rows = new Map<string, LicenceRow>();
  for (const [path, { version = '', license = '', dev }] of Object.entries(lockSchema.parse(lock).packages)) {
    const name = path.slice(path.lastIndexOf('node_modules/') + 'node_modules/'.length);
    if (path === '' || (dev === true && !shippedTools.includes(name))) continue;
    rows.set(`${name} ${version}`, { name, version, licence: license });
  }
  return [...rows.values()].toSorted((a, b) => a.name.localeCompare(b.name));
}

/** Terms that ask for no more than to be named, or, for fonts, not to be sold by themselves. */
const permissive = ['MIT', 'MIT-0', 'ISC', '0BSD', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', 'Zlib', 'OFL-1.1'];

/** LGPL parts go with any program that loads them as files of their own, which anybody can exchange for another build. */
const exchangeable: readonly (readonly [name: RegExp, how: string])[] = [
  [/^libheif-js$/, 'an unmodified package in its own folder, loaded at run time, never bundled'],
  [/^@img\/sharp-/, 'libvips as a shared library beside sharp (or in its own WebAssembly package), never bundled'],
];

/** How a package may travel with ours, in words; nothing where its terms are not known to allow it. */
export function howItMayTravel({ name, licence }: LicenceRow): string | undefined {
  const terms = licence.replace(/[()]/g, '').split(' AND ');
  const others = terms.filter((term) => !permissive.includes(term));
  if (licence !== '' && others.length === 0) return 'named in the list';
  if (others.length === 0 || !others.every((term) => /^LGPL-3\.0(-or-later|-only)?$/.test(term))) return undefined;
  return exchangeable.find(([pattern]) => pattern.test(name))?.[1];
}
