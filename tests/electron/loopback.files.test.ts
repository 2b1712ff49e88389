import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openLoopback } from '../../electron/loopback/loopback-host.ts';
import { runningHost } from '../../electron/start/running-host.ts';
import { writePdf } from '../desk/small-lot.ts';
import { answered, type Kit, openKit, send, textOf, windowDeskIn } from './hosts-kit.ts';

/** Reads the event stream until `enough` events came. */
function events(kit: Kit, window: string): { readonly seen: unknown[]; readonly open: Promise<void>; close(): void } {
  const seen: unknown[] = [];
  const opened = Promise.withResolvers<void>();
  const path = `/events?window=${window}`;
  const asked = request({ host: '127.0.0.1', port: kit.loopback.port, path, headers: kit.known }, (response) => {
    expect(response.headers['content-type']).toBe('text/event-stream');
    opened.resolve();
    response.on('data', (data: Buffer) => {
      for (const line of data.toString().split('\n')) {
        if (line.startsWith('data: ')) seen.push(JSON.parse(line.slice(6)));
      }
    });
    response.on('error', () => undefined);
  });
  asked.on('error', () => undefined);
  asked.end();
  return { seen, open: opened.promise, close: () => asked.destroy() };
}

describe('the loopback host', () => {
  it('carries a paper from the browser into the lot, tells its progress, and serves its bytes back in ranges', async () => {
    await using kit = await openKit();
    const stream = events(kit, 'w1');
    await stream.open;
    const ask = async (name: string, argument: unknown, asking: object = {}): Promise<unknown> =>
      answered(JSON.parse((await kit.post(`/ask/${name}`, { argument, asking }, { 'x-lotfile-window': 'w1' })).text));
    const made = JSON.parse((await kit.post('/act/make-folder', { argument: { title: 'Ridge' } })).text);
    const lot = textOf(await ask('new-lot', { folder: made.answer.folder, title: 'Ridge' }), 'lot');
    const path = await writePdf(join(kit.root, 'deed.pdf'), ['Deed', 'Second page']);
    const bytes = readFileSync(path);
    const sent = await kit.post('/files', bytes, { 'x-file-name': 'De%20deed.pdf' });
    const { ticket, ...file }: { ticket: string } = JSON.parse(sent.text).answer;
    expect(file).toEqual({ name: 'De deed.pdf', bytes: bytes.length });
    const kept = await ask('keep', { papers: [{ files: [ticket], kind: 'deed' }] }, { lot, id: 'k1' });
    expect(kept).toMatchObject({ kept: [{ title: 'Deed', pages: 2 }], refused: [] });
    expect(stream.seen).toContainEqual({
      event: 'progress',
      told: expect.objectContaining({ request: 'keep', id: 'k1' }),
    });
    stream.close();
    // What was kept is let go; bytes still on their way are served.
    expect((await kit.get(`/bytes/${ticket}`)).status).toBe(404);
    const again = await kit.post('/files', bytes, { 'x-file-name': 'De%20deed.pdf' });
    const waiting = textOf(answered(JSON.parse(again.text)), 'ticket');
    const whole = await kit.get(`/bytes/${waiting}`);
    expect(whole.bytes.equals(bytes)).toBe(true);
    expect(whole.headers).toMatchObject({
      'content-type': 'application/pdf',
      'content-length': String(bytes.length),
      'accept-ranges': 'bytes',
      'cache-control': 'no-store',
      'content-disposition': `inline; filename="De deed.pdf"; filename*=UTF-8''De%20deed.pdf`,
    });
    const part = await kit.get(`/bytes/${waiting}`, { range: 'bytes=5-9' });
    expect([part.status, part.headers['content-range']]).toEqual([206, `bytes 5-9/${bytes.length}`]);
    expect(part.bytes.equals(bytes.subarray(5, 10))).toBe(true);
    const beyond = await kit.get(`/bytes/${waiting}`, { range: `bytes=${bytes.length}-` });
    expect([beyond.status, beyond.headers['content-range']]).toEqual([416, `bytes */${bytes.length}`]);
    const saved = await kit.get(`/bytes/${waiting}?save`);
    expect(saved.headers['content-disposition']).toMatch(/^attachment; /);
  });

  it('serves the window’s own files with their types, and says plainly where it is not built', async () => {
    await using kit = await openKit();
    const script = await kit.get('/assets/a-1.js');
    expect([script.status, script.headers['content-type']]).toEqual([200, 'text/javascript; charset=utf-8']);
    await using bare = await openLoopback({ host: kit.desk, window: join(kit.root, 'no such folder') });
    const { pathname, search } = new URL(bare.address());
    const headers = { host: `127.0.0.1:${bare.port}` };
    const cookie = (await send(bare.port, pathname + search, { headers })).headers['set-cookie']?.[0] ?? '';
    const page = await send(bare.port, '/', { headers: { ...headers, cookie } });
    expect([page.status, page.text.includes('The window is not built yet.')]).toEqual([503, true]);
  });

  it('comes back after an end in the middle of work: same port, and the window goes on with its cookie changed for a new one', async () => {
    await using kit = await openKit();
    const { port } = kit.loopback;
    const made = answered(JSON.parse((await kit.post('/act/make-folder', { argument: { title: 'Ridge' } })).text));
    const folder = textOf(made, 'folder');
    await kit.post('/ask/new-lot', { argument: { folder, title: 'Ridge' }, asking: {} });
    await kit.post('/files', Buffer.from('x'), { 'x-file-name': 'left.pdf' });
    await kit.loopback.close();
    await kit.desk.close();
    await expect(kit.get('/')).rejects.toThrow();
    // A crash leaves what was handed over behind; the next start clears it.
    await using desk = windowDeskIn(kit.root);
    await using again = await openLoopback({ host: desk, window: join(kit.root, 'window') });
    expect(again.port).toBe(port);
    expect(readdirSync(join(kit.root, 'config', 'handed-over', `${process.pid}-${port}`))).toEqual([]);
    const renewed = await kit.post('/act/host', {});
    const [cookie = ''] = (renewed.headers['set-cookie']?.[0] ?? '').split(';');
    expect(cookie).toMatch(new RegExp(`^lotfile-${port}=`));
    expect(cookie).not.toBe(kit.known.cookie);
    const anew = await kit.get('/', { cookie });
    expect([anew.status, anew.headers['set-cookie']]).toEqual([200, undefined]);
    const card = JSON.parse(renewed.text).answer;
    const opened = await kit.post('/ask/open-lot', { argument: { folder: card.lots[0].folder }, asking: {} });
    expect(answered(JSON.parse(opened.text))).toMatchObject({ title: 'Ridge' });
  });

  it('clears what was handed over when it ends, and takes another port where its own is taken', async () => {
    await using kit = await openKit();
    await kit.post('/files', Buffer.from('x'), { 'x-file-name': 'left.pdf' });
    const folder = join(kit.root, 'config', 'handed-over', `${process.pid}-${kit.loopback.port}`);
    expect(readdirSync(folder)).toHaveLength(1);
    await using other = await openLoopback({ host: kit.desk, window: join(kit.root, 'window') });
    expect(other.port).not.toBe(kit.loopback.port);
    await kit.loopback.close();
    expect(existsSync(folder)).toBe(false);
  });

  it('is found by a second start of the program, which proves it is ours; a stranger on the port is not believed', async () => {
    await using kit = await openKit();
    const config = join(kit.root, 'config');
    const address = new URL((await runningHost(config)) ?? '');
    const headers = { host: address.host };
    expect((await send(kit.loopback.port, `/${address.search}`, { headers })).status).toBe(303);
    rmSync(join(config, 'browser.json'));
    writeFileSync(join(config, 'browser.json'), JSON.stringify({ secret: 'y'.repeat(43), port: kit.loopback.port }));
    expect(await runningHost(config)).toBeUndefined();
    expect((await send(kit.loopback.port, '/alive?challenge=x', { headers })).status).toBe(404);
  });

  it('stops a long asking when told', async () => {
    await using kit = await openKit();
    const made = answered(JSON.parse((await kit.post('/act/make-folder', { argument: { title: 'Ridge' } })).text));
    const opened = await kit.post('/ask/new-lot', { argument: { folder: textOf(made, 'folder'), title: 'Ridge' } });
    const lot = textOf(answered(JSON.parse(opened.text)), 'lot');
    const path = await writePdf(join(kit.root, 'deed.pdf'), ['Deed', 'Second page']);
    const { ticket } = kit.desk.take(path, 'deed.pdf', 1);
    const papers = [{ files: [ticket], kind: 'deed' }];
    const keeping = kit.post('/ask/keep', { argument: { papers }, asking: { lot, id: 'k1' } });
    await kit.post('/stop', { id: 'never asked' });
    const stops: Promise<unknown>[] = [];
    const stop = setInterval(() => stops.push(kit.post('/stop', { id: 'k1' })), 50);
    const reply = JSON.parse((await keeping).text);
    clearInterval(stop);
    await Promise.all(stops);
    expect(reply).toMatchObject({ ok: false, error: { code: 'stopped' } });
  });
});
