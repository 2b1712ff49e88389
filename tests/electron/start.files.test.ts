import { spawn } from 'node:child_process';
import { mkdirSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { openDesk } from '../../core/desk/desk.ts';
import { Recents } from '../../electron/host/recents.ts';
import { buildWindow } from '../../electron/packaging/build-window.ts';
import { isStale } from '../../electron/packaging/newest.ts';
import { electronBinary } from '../../electron/start/electron-binary.ts';
import { rememberLot } from '../../electron/start/remember-lot.ts';
import { kitDay, scratch, send } from './hosts-kit.ts';

const project = join(import.meta.dirname, '..', '..');

it('finds Electron’s program without loading its package, and only where it lies', () => {
  using at = scratch();
  const folder = join(at.root, 'node_modules', 'electron');
  expect(electronBinary(at.root)).toBeUndefined();
  mkdirSync(join(folder, 'dist'), { recursive: true });
  writeFileSync(join(folder, 'path.txt'), 'electron');
  writeFileSync(join(folder, 'index.js'), 'throw new Error("it was loaded")');
  expect(electronBinary(at.root)).toBeUndefined();
  writeFileSync(join(folder, 'dist', 'electron'), '');
  expect(electronBinary(at.root)).toBe(join(folder, 'dist', 'electron'));
});

it('builds what is missing or older than its sources', () => {
  using at = scratch();
  const [built, source] = [join(at.root, 'built.html'), join(at.root, 'src', 'deep', 'a.ts')];
  mkdirSync(join(at.root, 'src', 'deep'), { recursive: true });
  mkdirSync(join(at.root, 'src', 'node_modules'));
  writeFileSync(source, '');
  utimesSync(source, 1000, 1000);
  expect(isStale(built, [join(at.root, 'src')])).toBe(true);
  writeFileSync(built, '');
  utimesSync(built, 2000, 2000);
  writeFileSync(join(at.root, 'src', 'node_modules', 'newer.ts'), '');
  expect(isStale(built, [join(at.root, 'src'), join(at.root, 'not there')])).toBe(false);
  utimesSync(source, 3000, 3000);
  expect(isStale(built, [join(at.root, 'src')])).toBe(true);
});

it('puts a lot that lies anywhere into the list, and says so where there is none', async () => {
  using at = scratch();
  const places = { config: join(at.root, 'config'), lots: join(at.root, 'lots') };
  const folder = join(at.root, 'on a stick');
  const more = { places, version: '1', today: () => kitDay };
  await expect(rememberLot({ folder, ...more })).rejects.toMatchObject({ code: 'not found' });
  await using desk = openDesk({ program: 'test' });
  const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(folder), title: 'Stick' });
  await expect(rememberLot({ folder, ...more })).rejects.toMatchObject({ code: 'lot busy' });
  expect(new Recents(places.config).list()).toEqual([]);
  await desk.ask('close-lot', {}, { lot });
  await rememberLot({ folder, ...more });
  await desk.ask('open-lot', { folder: desk.tickets.offer(folder) });
  await rememberLot({ folder, ...more });
  expect(new Recents(places.config).list()).toMatchObject([{ title: 'Stick', gone: false }]);
});

// Windows knows no Ctrl-C that one program could send another.
it.skipIf(process.platform === 'win32')(
  'npm start says where the window is, lets in whoever has the address, and ends cleanly on Ctrl-C',
  async () => {
    using at = scratch();
    await buildWindow(project);
    const child = spawn(process.execPath, [join(project, 'electron', 'start.ts'), '--browser', '--no-open'], {
      env: { PATH: process.env.PATH, HOME: at.root, XDG_CONFIG_HOME: join(at.root, 'config') },
    });
    let said = '';
    const address = await new Promise<URL>((resolve, reject) => {
      child.once('exit', () => reject(new Error(`It ended: ${said}`)));
      const hear = (part: Buffer): void => {
        said += part.toString();
        const found = /http:\/\/127\.0\.0\.1:\d+\/\?token=\S+/.exec(said);
        if (found !== null) resolve(new URL(found[0]));
      };
      child.stdout.on('data', hear);
      child.stderr.on('data', hear);
    });
    const headers = { host: address.host };
    const port = Number(address.port);
    const letIn = await send(port, `/${address.search}`, { headers });
    const cookie = letIn.headers['set-cookie']?.[0]?.split(';')[0] ?? '';
    const page = await send(port, '/', { headers: { ...headers, cookie } });
    expect([page.status, page.text.includes('<title>Lotfile</title>')]).toEqual([200, true]);
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGINT');
    expect(await ended).toBe(0);
    expect(said).toContain('Closing the lots');
  },
);
