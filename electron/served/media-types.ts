import { extname } from 'node:path';

/** The window's own files. */
const ownTypes: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.mjs': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.jpg': 'image/jpeg',
  '.woff2': 'font/woff2',
  '.ttf': 'font/ttf',
  '.wasm': 'application/wasm',
  '.ico': 'image/x-icon',
};

/** A person's files: only sorts that no browser runs. Pages, scripts and drawings with scripts are never among them. */
const paperTypes: Readonly<Record<string, string>> = {
  '.pdf': 'application/pdf',
  '.jpg': 'image/jpeg',
  '.jpeg': 'image/jpeg',
  '.png': 'image/png',
  '.webp': 'image/webp',
  '.gif': 'image/gif',
  '.tif': 'image/tiff',
  '.tiff': 'image/tiff',
  '.heic': 'image/heic',
  '.heif': 'image/heif',
  '.txt': 'text/plain; charset=utf-8',
};

const anyBytes = 'application/octet-stream';

export function ownType(name: string): string {
  return ownTypes[extname(name).toLowerCase()] ?? anyBytes;
}

/** @returns the type to serve a person's file as; `application/octet-stream` for whatever isn't known to be harmless. */
export function paperType(name: string): string {
  return paperTypes[extname(name).toLowerCase()] ?? anyBytes;
}

/** What can't be shown as it is goes out as a download. */
export function mayBeShown(type: string): boolean {
  return type !== anyBytes;
}
