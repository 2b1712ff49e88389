/**
 * `npm run package`: builds the window and the program and packs them for this computer's system (`-- --dir` makes
 * only the program's folder). Electron's own files are fetched by the packer where they are not there yet.
 */
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { buildProgram } from './build-program.ts';
import { buildWindow, windowIn } from './build-window.ts';
import { type PackFor, pack } from './pack.ts';
import { projectCard } from './project-card.ts';

const project = join(import.meta.dirname, '..', '..');
const { values } = parseArgs({ options: { dir: { type: 'boolean' } } });
const systems: Partial<Record<NodeJS.Platform, PackFor>> = { win32: 'windows', darwin: 'mac' };

const app = join(project, 'dist', 'app');
await buildWindow(project);
await buildProgram({ project, window: windowIn(project), out: app });
const made = await pack({
  project,
  app,
  out: join(project, 'dist', 'packages'),
  resources: join(import.meta.dirname, 'resources'),
  electronVersion: projectCard(join(project, 'node_modules', 'electron')).version,
  for: systems[process.platform] ?? 'linux',
  folderOnly: values.dir === true,
});
process.stdout.write(made.map((path) => `${path}\n`).join(''));
