import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import { once, shelf } from './shelf.ts';

/**
 * Makes the invented lot's files again. Give part of a name to make only the files that contain it.
 * What is made once (see shelf.ts) is only made where it is missing.
 */
const folder = new URL('../papers/', import.meta.url);
const wanted = process.argv[2] ?? '';
mkdirSync(folder, { recursive: true });
let bytes = 0;
let count = 0;
for (const [name, make] of [...Object.entries(shelf), ...Object.entries(once)]) {
  const file = new URL(encodeURIComponent(name), folder);
  if (!name.includes(wanted) || (name in once && existsSync(file))) continue;
  const made = await make();
  writeFileSync(file, made);
  bytes += made.length;
  count += 1;
}
process.stdout.write(`${count} files made, ${(bytes / 1e6).toFixed(1)} MB.\n`);
