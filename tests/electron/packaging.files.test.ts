import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { extractAll, extractFile, listPackage } from '@electron/asar';
import { FuseV1Options, getCurrentFuseWire } from '@electron/fuses';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildProgram } from '../../electron/packaging/build-program.ts';
import { buildWindow, windowIn } from '../../electron/packaging/build-window.ts';
import { builderConfig } from '../../electron/packaging/builder-config.ts';
import { pack } from '../../electron/packaging/pack.ts';
import { writePdf } from '../desk/small-lot.ts';
import { makeStandIn } from './stand-in-electron.ts';

const project = join(import.meta.dirname, '..', '..');
const resources = join(project, 'electron', 'packaging', 'resources');

/** The letters "0" and "1" on the wire. */
const [off, on] = [0x30, 0x31];

/** The packing step itself, against a folder that stands in for Electron's: only Linux's needs no tools of its own. */
describe.skipIf(process.platform !== 'linux')('the packed program', () => {
  const root = mkdtempSync(join(tmpdir(), 'lotfile-pack-'));
  const out = join(root, 'packed');
  const archive = join(out, 'linux-unpacked', 'resources', 'app.asar');
  let files: readonly string[] = [];

  beforeAll(async () => {
    await buildWindow(project);
    const app = join(root, 'app');
    await buildProgram({ project, window: windowIn(project), out: app });
    const electronDist = makeStandIn(join(root, 'electron'));
    await pack({
      project,
      app,
      out,
      resources,
      electronVersion: '45.4.1',
      electronDist,
      for: 'linux',
      folderOnly: true,
    });
    files = listPackage(archive, { isPack: false }).map((path) => path.replaceAll('\\', '/'));
  }, 300_000);
  afterAll(() => rmSync(root, { recursive: true, force: true }));

  it('has every fuse set the safe way', async () => {
    const wire = await getCurrentFuseWire(join(out, 'linux-unpacked', 'lotfile'));
    expect(wire).toMatchObject({
      [FuseV1Options.RunAsNode]: off,
      [FuseV1Options.EnableCookieEncryption]: on,
      [FuseV1Options.EnableNodeOptionsEnvironmentVariable]: off,
      [FuseV1Options.EnableNodeCliInspectArguments]: off,
      [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]: on,
      [FuseV1Options.OnlyLoadAppFromAsar]: on,
      [FuseV1Options.GrantFileProtocolExtraPrivileges]: off,
    });
  });

  it('holds nothing it doesn’t need at run time: no sources, no tests, no builders, none of the window’s parts', () => {
    const strays = files.filter((path) =>
      [
        /\.(ts|tsx|mts|cts|map|cpp|c|h|gyp)$/,
        /^\/(tests?|renderer\/(screens|kit|state)|electron\/(packaging|start|loopback)|dist|out|\.ci)(\/|$)/,
        /^\/sample-project\/(make|pictures)(\/|$)/,
        /^\/core\/cli(\/|$)/,
        /^\/node_modules\/(react|react-dom|react-aria-components|zustand|vite|vitest|typescript|electron|node|playwright-core|@biomejs|@electron|@types|@sparticuz|axe-core)(\/|$)/,
        /^\/node_modules\/node-(linux|darwin|win)/,
        /\/node_modules\/better-sqlite3\/(src|deps)(\/|$)/,
      ].some((pattern) => pattern.test(path)),
    );
    expect(strays).toEqual([]);
    const top = new Set(files.map((path) => path.split('/')[1]));
    expect([...top].sort((a = '', b = '') => a.localeCompare(b))).toEqual([
      'core',
      'electron',
      'node_modules',
      'package.json',
      'renderer',
      'sample-project',
      'templates',
    ]);
    // Fonts come in dozens of weights; four faces are drawn with.
    expect(files.filter((path) => path.endsWith('.ttf') && path.includes('@expo-google-fonts'))).toHaveLength(4);
  });

  it('has a preload script that a sandbox can run: one file that asks for nothing but Electron', () => {
    const script = extractFile(archive, 'electron/preload/preload.cjs').toString();
    const asked = [...script.matchAll(/\b(?:require|import)\(\s*["'`]([^"'`]+)/g)].map(([, name]) => name);
    expect(asked).toEqual(['electron']);
    expect(script).not.toMatch(/^\s*(import|export) /m);
  });

  it('holds its data beside its code, and outside the archive what the system has to load itself', () => {
    for (const path of [
      '/core/store/migrations/0001-lot.sql',
      '/core/workers/worker-main.js',
      '/core/workers/watchdog.js',
      '/electron/preload/preload.cjs',
      '/electron/main/paper.png',
      '/renderer/index.html',
      '/sample-project/story.yaml',
      '/sample-project/practice/brindlemoor.yaml',
      '/node_modules/@embedpdf/pdfium/dist/pdfium.wasm',
      '/node_modules/@neslinesli93/qpdf-wasm/dist/qpdf.wasm',
    ]) {
      expect(files).toContain(path);
    }
    const unpacked = readdirSync(`${archive}.unpacked`, { recursive: true }).map(String);
    const natives = unpacked.filter((path) => path.endsWith('.node'));
    expect(natives.some((path) => path.includes('better-sqlite3'))).toBe(true);
    expect(natives.some((path) => path.includes('sharp'))).toBe(true);
    expect(natives.filter((path) => /darwin|win32/.test(path))).toEqual([]);
  });

  it('holds of the HEIC decoder and of the second PDF reader what is run, with their licences, and no other build', () => {
    const inside = (name: string): readonly string[] =>
      files
        .filter((path) => path.startsWith(`/node_modules/${name}/`) && /\.\w+$|LICENSE$/.test(path))
        .toSorted((a, b) => (a < b ? -1 : 1));
    expect(inside('libheif-js').map((path) => path.slice('/node_modules/libheif-js/'.length))).toEqual([
      'LICENSE',
      'libheif-wasm/LICENSE',
      'libheif-wasm/libheif-bundle.js',
      'package.json',
      'wasm-bundle.js',
    ]);
    expect(inside('pdfjs-dist').map((path) => path.slice('/node_modules/pdfjs-dist/'.length))).toEqual([
      'LICENSE',
      'legacy/build/pdf.mjs',
      'legacy/build/pdf.worker.mjs',
      'package.json',
    ]);
  });

  it('runs: it makes a lot, keeps a paper in its own worker program and assembles a packet', async () => {
    const program = join(root, 'program');
    extractAll(archive, program);
    const paper = await writePdf(join(root, 'Deed.pdf'), ['Warranty deed', 'Second page']);
    const heic = join(project, 'tests', 'intake', 'pictures', 'samples', 'L.heic');
    const home = join(root, 'home');
    const hook = pathToFileURL(join(import.meta.dirname, 'electron-hook.ts')).href;
    const run = spawnSync(
      process.execPath,
      ['--import', hook, join(import.meta.dirname, 'run-packed.ts'), program, paper, heic],
      {
        encoding: 'utf8',
        cwd: root,
        env: { PATH: process.env.PATH, HOME: home, XDG_CONFIG_HOME: join(home, 'config') },
      },
    );
    expect(run.stderr).toBe('');
    const answer = JSON.parse(run.stdout);
    expect(answer).toMatchObject({
      file: 'Deed.pdf',
      card: { version: '9.9.9', dialogs: true, lots: [{ title: 'Packed' }] },
      kept: [{ title: 'Deed', pages: 2 }],
      photo: [{ title: 'Phone', pages: 1 }],
      second: 2,
      refused: [],
      letters: files.includes('/core/intake/ocr/letter-reader.js'),
      script: 200,
      problems: [],
    });
    expect(answer.forked).toBeGreaterThan(0);
    expect(answer.files.length).toBeGreaterThan(0);
    for (const file of answer.files) expect(file).toMatchObject({ status: 200, head: '%PDF-' });
    expect(existsSync(join(home, 'Lotfile', 'packed', 'lot.sqlite'))).toBe(true);
  });
});

describe('what packing is told', () => {
  it('names installers for three systems, and signs on a Mac only where keys are there', () => {
    const places = { app: 'a', out: 'b', resources, electronVersion: '1' };
    const config = builderConfig(places);
    expect([config.win?.target, config.mac?.target, config.linux?.target]).toEqual([
      ['nsis'],
      ['dmg'],
      ['AppImage', 'deb'],
    ]);
    expect(config.mac).toMatchObject({ hardenedRuntime: true, identity: null, notarize: false });
    expect(config.nsis?.deleteAppDataOnUninstall).toBe(false);
    expect(readFileSync(join(resources, 'icon.png')).subarray(1, 4).toString()).toBe('PNG');
    const before = process.env.CSC_LINK;
    process.env.CSC_LINK = 'a certificate';
    try {
      expect(builderConfig(places).mac).not.toHaveProperty('identity');
    } finally {
      if (before === undefined) delete process.env.CSC_LINK;
      else process.env.CSC_LINK = before;
    }
  });
});
