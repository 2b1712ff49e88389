import { cpSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative, sep } from 'node:path';
import { projectCard } from './project-card.ts';

/** The rooms that run inside the program; the window is built into files of its own. */
const rooms = ['core', 'electron/main', 'electron/host', 'electron/served', 'sample-project'];

/** Never read at run time. */
const junk = [
  /(^|\/)(README|CHANGELOG|HISTORY|CONTRIBUTING|SECURITY)(\.\w+)?$/,
  /(^|\/)\.[^/]*$/,
  /\.(d\.[cm]?ts|[cm]?ts|map|markdown|gyp|gypi|flow|c|cc|cpp|h|hpp)$/,
  /(^|\/)(test|tests|__tests__|example|examples|docs|benchmarks?|man|coverage)(\/|$)/,
];

/** Per package: what only other systems, other doors or builders use. */
const aside: Readonly<Record<string, RegExp>> = {
  'better-sqlite3': new RegExp(`^(deps|src)(/|$)|^prebuilds/(?!${process.platform})`),
  'pdf-lib': /^(src|ts3\.4|dist)(\/|$)/,
  '@embedpdf/pdfium': /\.browser\./,
  // One build as WebAssembly; the package is there twice more.
  'libheif-js': /^(index\.js|wasm\.js|libheif(\/|$)|libheif-wasm\/(?!LICENSE$|libheif-bundle\.js$))/,
  // Words and annotations are asked for, never pictures.
  'pdfjs-dist': /^(?!package\.json$|LICENSE$|legacy(\/build(\/pdf(\.worker)?\.mjs)?)?$)/,
  '@tesseract.js-data/eng': /^4\.0\.0(\/|$)/,
  'tesseract.js': /^dist(\/|$)/,
  'tesseract.js-core': /\.wasm\.js$/,
  zod: /^src(\/|$)/,
};

function filesUnder(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !entry.parentPath.includes(`${sep}node_modules`))
    .map((entry) => join(entry.parentPath, entry.name));
}

function sourcesOf(project: string): string {
  return rooms
    .flatMap((room) => filesUnder(join(project, room)))
    .filter((path) => path.endsWith('.ts') && !path.includes(join('sample-project', 'make')))
    .map((path) => readFileSync(path, 'utf8'))
    .join('\n');
}

/** Where a package lies that another one asks for: beside it, or further up. */
function find(name: string, from: string, project: string): string | undefined {
  for (let folder = from; ; folder = dirname(folder)) {
    const place = join(folder, 'node_modules', name);
    if (existsSync(join(place, 'package.json'))) return place;
    if (folder === project || folder === dirname(folder)) return undefined;
  }
}

/** The places of a package and of everything it asks for, with what is there for this system. */
function closure(project: string, names: readonly string[]): ReadonlySet<string> {
  const places = new Set<string>();
  const visit = (name: string, from: string): void => {
    const place = find(name, from, project);
    if (place === undefined || places.has(place)) return;
    places.add(place);
    const { dependencies, optionalDependencies } = projectCard(place);
    for (const next of Object.keys({ ...dependencies, ...optionalDependencies })) visit(next, place);
  };
  for (const name of names) visit(name, project);
  return places;
}

function nameOf(place: string): string {
  return place.slice(place.lastIndexOf(`node_modules${sep}`) + 'node_modules/'.length).replaceAll(sep, '/');
}

/** Fonts come in dozens of weights: only those named in the sources are read. */
function isNeeded(name: string, inside: string, sources: string): boolean {
  if (junk.some((pattern) => pattern.test(inside)) || aside[name]?.test(inside) === true) return false;
  if (!name.startsWith('@expo-google-fonts/') || !/^\d/.test(inside)) return true;
  return inside.endsWith('.ttf') ? sources.includes(`${name}/${inside}`) : sources.includes(`${name}/${inside}/`);
}

/**
 * Copies the packages the program asks for, and what those ask for, beside it.
 * @returns the packages it names itself, with the versions wanted.
 */
export function stagePackages(project: string, out: string): Readonly<Record<string, string>> {
  const sources = sourcesOf(project);
  const { dependencies } = projectCard(project);
  const named = Object.entries(dependencies).filter(([name]) =>
    [`'${name}'`, `'${name}/`].some((word) => sources.includes(word)),
  );
  for (const place of closure(
    project,
    named.map(([name]) => name),
  )) {
    const name = nameOf(place);
    cpSync(place, join(out, relative(project, place)), {
      recursive: true,
      filter: (path) => {
        const inside = relative(place, path).replaceAll(sep, '/');
        return inside === '' || (!inside.split('/').includes('node_modules') && isNeeded(name, inside, sources));
      },
    });
  }
  return Object.fromEntries(named);
}
