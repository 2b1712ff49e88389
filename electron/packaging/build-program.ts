import { cpSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'vite';
import { projectCard } from './project-card.ts';
import { stagePackages } from './stage-packages.ts';

/** Programs: what Electron starts, what the desk starts, what a worker starts in a thread of its own. */
const programs = ['electron/main/main.ts', 'core/workers/worker-main.ts', 'core/workers/watchdog.ts'];

/** Data the program reads beside itself, at the places its sources have it. */
const data = [
  'core/store/migrations',
  'electron/main/paper.png',
  'templates',
  'sample-project/story.yaml',
  'sample-project/first-month.yaml',
  'sample-project/framing.yaml',
  'sample-project/papers',
  'sample-project/practice',
];

const bare = /^(?!\.|\/|[a-zA-Z]:[\\/]|\0)/;

/** TypeScript to JavaScript, one file for one file: `import.meta.dirname` goes on meaning what it meant. */
async function buildSources(project: string, out: string): Promise<void> {
  await build({
    configFile: false,
    root: project,
    publicDir: false,
    logLevel: 'warn',
    build: {
      ssr: true,
      outDir: out,
      emptyOutDir: false,
      target: 'node24',
      minify: false,
      rolldownOptions: {
        input: programs.map((path) => join(project, path)),
        external: (id, importer) => importer !== undefined && bare.test(id),
        output: { format: 'es', preserveModules: true, preserveModulesRoot: project, entryFileNames: '[name].js' },
      },
    },
  });
}

/** A sandboxed preload script is one CommonJS file. */
async function buildPreload(project: string, out: string): Promise<void> {
  await build({
    configFile: false,
    root: project,
    publicDir: false,
    logLevel: 'warn',
    build: {
      outDir: join(out, 'electron', 'preload'),
      emptyOutDir: false,
      target: 'es2024',
      minify: false,
      lib: { entry: join(project, 'electron/preload/preload.ts'), formats: ['cjs'], fileName: () => 'preload.cjs' },
      rolldownOptions: { external: ['electron'] },
    },
  });
}

export interface BuildPlaces {
  readonly project: string;
  /** The window, built before. */
  readonly window: string;
  /** Emptied first. */
  readonly out: string;
}

/**
 * Builds the desktop program: a folder that holds all it needs at run time and nothing else, ready to be run by
 * Electron as it stands or to be packed.
 */
export async function buildProgram({ project, window, out }: BuildPlaces): Promise<void> {
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  await buildSources(project, out);
  await buildPreload(project, out);
  for (const path of data) cpSync(join(project, path), join(out, path), { recursive: true });
  cpSync(window, join(out, 'renderer'), { recursive: true });
  const dependencies = stagePackages(project, out);
  const { name, version, description } = projectCard(project);
  const card = {
    name,
    version,
    description,
    // A package for Debian has to name both; there is no such page.
    author: 'The people who work on Lotfile',
    homepage: 'https://lotfile.example',
    type: 'module',
    main: 'electron/main/main.js',
    dependencies,
  };
  writeFileSync(join(out, 'package.json'), `${JSON.stringify(card, null, 2)}\n`);
}
