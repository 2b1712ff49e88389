import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { ownType } from './media-types.ts';
import { notThere, plainPage, type Served } from './served.ts';

const first = 'index.html';

/**
 * The window's own files, listed once: an address is looked up in the list and never made into a path, so there is
 * no way out of the folder.
 */
export class WindowFiles {
  readonly #files = new Map<string, string>();

  constructor(folder: string) {
    const there = statSync(folder, { throwIfNoEntry: false })?.isDirectory() === true;
    for (const entry of there ? readdirSync(folder, { recursive: true, withFileTypes: true }) : []) {
      if (!entry.isFile()) continue;
      const path = join(entry.parentPath, entry.name);
      this.#files.set(`/${relative(folder, path).split(sep).join('/')}`, path);
    }
  }

  /** The page itself; the nonce is written into its place. */
  page(nonce: string): Served {
    const path = this.#files.get(`/${first}`);
    if (path === undefined) {
      return plainPage(503, 'The window is not built yet.', 'Build it with npm run build, then load this page again.');
    }
    const headers = { 'content-type': ownType(first), 'cache-control': 'no-store' };
    return { status: 200, headers, body: readFileSync(path, 'utf8').replaceAll('__NONCE__', nonce) };
  }

  /** @param address the decoded path of the address, beginning with "/". */
  file(address: string): Served {
    const path = this.#files.get(address);
    const size = path === undefined ? undefined : statSync(path, { throwIfNoEntry: false })?.size;
    if (path === undefined || size === undefined || address === `/${first}`) return notThere();
    // Names under assets/ carry a hash of the content.
    const keep = address.startsWith('/assets/') ? 'private, max-age=31536000, immutable' : 'no-cache';
    const headers = { 'content-type': ownType(path), 'content-length': String(size), 'cache-control': keep };
    return { status: 200, headers, body: { path, start: 0, end: size - 1 } };
  }
}
