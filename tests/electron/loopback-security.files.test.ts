import { existsSync, readdirSync, statSync, writeFileSync } from 'node:fs';
import { connect } from 'node:net';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openLoopback } from '../../electron/loopback/loopback-host.ts';
import { makeToken, readKept } from '../../electron/loopback/session.ts';
import { answered, enter, openKit, send, textOf } from './hosts-kit.ts';

const json = { 'content-type': 'application/json' };

describe('a door rule of the loopback host', () => {
  it('wrong Host: an address that only leads here by a rebound name is refused, cookie or not', async () => {
    await using kit = await openKit();
    for (const host of ['lot.example', `localhost:${kit.loopback.port}`, '127.0.0.1', `127.0.0.1:1`]) {
      const got = await kit.get('/', { host });
      expect([host, got.status]).toEqual([host, 403]);
      expect(got.text).toContain('This address is not the one Lotfile listens on.');
    }
    expect((await kit.get('/')).status).toBe(200);
  });

  it('wrong Origin: a write from another page, another port or nowhere is refused and does nothing', async () => {
    await using kit = await openKit();
    const { port } = kit.loopback;
    const body = JSON.stringify({ argument: { title: 'Planted' } });
    const foreign = [
      'http://lot.example',
      `http://localhost:${port}`,
      'http://127.0.0.1:1',
      'null',
      `https://127.0.0.1:${port}`,
    ];
    for (const origin of foreign) {
      const got = await send(port, '/act/make-folder', {
        method: 'POST',
        headers: { ...kit.known, ...json, origin },
        body,
      });
      expect([origin, got.status]).toEqual([origin, 403]);
    }
    const none = await send(port, '/act/make-folder', { method: 'POST', headers: { ...kit.known, ...json }, body });
    expect(none.status).toBe(403);
    expect(JSON.parse(none.text)).toMatchObject({
      ok: false,
      error: { message: 'Another page tried to write to Lotfile.' },
    });
    expect(existsSync(join(kit.root, 'lots'))).toBe(false);
    expect((await kit.post('/act/make-folder', { argument: { title: 'Mine' } })).status).toBe(200);
  });

  it('another page may not read either: a page of another port is "same-site" and would bring the cookie', async () => {
    await using kit = await openKit();
    for (const site of ['same-site', 'cross-site']) {
      for (const path of ['/', '/events', '/assets/a-1.js', '/bytes/t-1']) {
        expect((await kit.get(path, { 'sec-fetch-site': site })).status).toBe(403);
      }
      expect((await kit.post('/act/host', {}, { 'sec-fetch-site': site })).status).toBe(403);
    }
    const own = await kit.get('/assets/a-1.js', { 'sec-fetch-site': 'same-origin' });
    expect(own.headers['cross-origin-resource-policy']).toBe('same-origin');
    expect(own.headers['access-control-allow-origin']).toBeUndefined();
  });

  it('no token: without the cookie every address is refused with a plain sentence and nothing else', async () => {
    await using kit = await openKit();
    const { port } = kit.loopback;
    const headers = { host: `127.0.0.1:${port}` };
    for (const path of ['/', '/index.html', '/assets/a-1.js', '/bytes/t-1', '/events', '/nothing']) {
      const got = await send(port, path, { headers });
      expect([path, got.status]).toEqual([path, 403]);
      expect(got.text).toContain('This browser has not been let in.');
    }
    const strangers = ['', `lotfile-${port}=`, `lotfile-${port}=guess`, kit.known.cookie?.slice(0, -1) ?? ''];
    for (const cookie of strangers) {
      const got = await send(port, '/act/host', {
        method: 'POST',
        headers: { ...headers, ...json, origin: kit.origin, cookie },
        body: '{}',
      });
      expect(got.status).toBe(403);
    }
  });

  it('token twice: the second use is refused, and so is one of an earlier run or of another secret', async () => {
    await using kit = await openKit();
    const { port } = kit.loopback;
    const headers = { host: `127.0.0.1:${port}` };
    const { search } = new URL(kit.loopback.address());
    const first = await send(port, `/${search}`, { headers });
    expect([first.status, first.headers.location]).toEqual([303, '/']);
    expect(first.headers['set-cookie']?.[0]).toMatch(/^lotfile-\d+=[\w-]{43}; Path=\/; HttpOnly; SameSite=Strict$/);
    const second = await send(port, `/${search}`, { headers });
    expect(second.status).toBe(403);
    expect(second.text).toContain('was used already');
    expect(second.headers['set-cookie']).toBeUndefined();
    const { secret } = readKept(join(kit.root, 'config'));
    const bad = [
      makeToken(secret, port, Date.now() - 3_600_000),
      makeToken(`${secret}x`, port),
      makeToken(secret, port + 1),
      '',
      'a.b.c',
    ];
    for (const token of bad) {
      expect((await send(port, `/?token=${token}`, { headers })).status).toBe(403);
    }
    expect((await send(port, `/?token=${makeToken(secret, port)}`, { headers })).status).toBe(303);
  });

  it('path traversal: no spelling of a way up leaves the window’s folder', async () => {
    await using kit = await openKit();
    const ways = [
      '/../beside.txt',
      '/assets/../../beside.txt',
      '/%2e%2e/beside.txt',
      '/..%2fbeside.txt',
      '/%2e%2e%2fbeside.txt',
      '/assets/..%5c..%5cbeside.txt',
      '//beside.txt',
      '/assets/%00/../../beside.txt',
      '/%',
      `/bytes/..%2f..%2fbeside.txt`,
      `/bytes/${encodeURIComponent(join(kit.root, 'beside.txt'))}`,
      'http://lot.example/../beside.txt',
    ];
    for (const way of ways) {
      const got = await kit.get(way);
      expect([way, got.status]).toEqual([way, 404]);
      expect(got.text).not.toContain('not for anybody');
    }
    // Only what lay there at the start is served.
    writeFileSync(join(kit.root, 'window', 'later.js'), 'alert(1)');
    expect((await kit.get('/later.js')).status).toBe(404);
  });

  it('oversized upload: refused with a sentence before it is read, or as soon as it grows too large, leaving nothing', async () => {
    await using kit = await openKit({ uploadLimit: 1000 });
    const folder = join(kit.root, 'config', 'handed-over', `${process.pid}-${kit.loopback.port}`);
    const headers = { 'x-file-name': 'large.pdf' };
    const announced = await kit.post('/files', Buffer.alloc(1001), headers);
    expect(announced.status).toBe(413);
    expect(JSON.parse(announced.text)).toMatchObject({
      ok: false,
      error: { code: 'file refused', message: '"large.pdf" is larger than 1000 bytes.' },
    });
    // One that doesn't say how long it is.
    const chunked = await kit.post('/files', Buffer.alloc(5000), { ...headers, 'transfer-encoding': 'chunked' });
    expect(JSON.parse(chunked.text)).toMatchObject({ ok: false, error: { code: 'file refused' } });
    expect(readdirSync(folder)).toEqual([]);
    expect((await kit.post('/files', Buffer.alloc(1000), headers)).status).toBe(200);
    const words = await kit.post('/act/host', Buffer.alloc(9 * 1024 * 1024, 0x20));
    expect([words.status, JSON.parse(words.text).error.message]).toEqual([413, 'This is too much for one request.']);
  });

  it('oversized upload: what is left of it is not read, the connection ends', async () => {
    await using kit = await openKit({ uploadLimit: 1000 });
    const read = await new Promise<string>((resolve, reject) => {
      const socket = connect(kit.loopback.port, '127.0.0.1');
      let got = '';
      socket.on('data', (data) => {
        got += data.toString();
      });
      socket.on('error', reject);
      socket.on('close', () => resolve(got));
      const lines = ['POST /files HTTP/1.1', `Host: ${kit.known.host}`, `Cookie: ${kit.known.cookie}`];
      lines.push(`Origin: ${kit.origin}`, 'X-File-Name: endless.pdf', 'Content-Length: 99999999999', '', 'never more');
      socket.write(lines.join('\r\n'));
    });
    expect(read).toContain('HTTP/1.1 413');
    expect(read).toMatch(/connection: close/i);
  });

  it('a file’s name is only a name: it never becomes a path, and stands in the list as the person knows it', async () => {
    await using kit = await openKit();
    const folder = join(kit.root, 'config', 'handed-over', `${process.pid}-${kit.loopback.port}`);
    const names = [
      ['../../../escape.pdf', 'escape.pdf'],
      ['C:\\Users\\me\\deed.pdf', 'deed.pdf'],
      ['Hạnh’s plan.pdf', 'Hạnh’s plan.pdf'],
      ['two\r\nlines.pdf', 'two  lines.pdf'],
    ];
    for (const [sent = '', shown] of names) {
      const got = await kit.post('/files', Buffer.from('%PDF-'), { 'x-file-name': encodeURIComponent(sent) });
      expect(answered(JSON.parse(got.text))).toMatchObject({ name: shown, bytes: 5 });
    }
    for (const bad of ['', '%', '..%2f']) {
      expect((await kit.post('/files', Buffer.from('x'), { 'x-file-name': bad })).status).toBe(400);
    }
    expect(readdirSync(folder).filter((name) => !/^[0-9a-f-]{36}$/.test(name))).toEqual([]);
    expect(readdirSync(folder)).toHaveLength(4);
    if (process.platform !== 'win32') expect(statSync(folder).mode & 0o777).toBe(0o700);
  });

  it('an argument that fails its schema is answered with a sentence and does nothing', async () => {
    await using kit = await openKit();
    const bad: readonly (readonly [string, unknown])[] = [
      ['/ask/new-lot', { argument: { folder: 7, title: [] } }],
      ['/ask/find', { argument: { text: { $gt: '' } }, asking: { lot: 'lot-1' } }],
      ['/ask/history', { argument: { limit: 1e9 }, asking: { lot: 'lot-1' } }],
      ['/ask/read-lot', { argument: {}, asking: { on: '2026-02-30' } }],
      ['/ask/__proto__', { argument: {} }],
      ['/act/make-folder', { argument: { title: 'x'.repeat(301) } }],
      ['/act/hasOwnProperty', { argument: {} }],
    ];
    for (const [path, body] of bad) {
      const got = await kit.post(path, body);
      expect([path, JSON.parse(got.text)]).toMatchObject([path, { ok: false, error: { code: 'wrong use' } }]);
    }
    for (const body of ['{', '', '[]', '7', 'null']) {
      const got = await kit.post('/act/host', Buffer.from(body));
      expect([body, got.status]).toEqual([body, 400]);
    }
    expect(existsSync(join(kit.root, 'lots'))).toBe(false);
  });

  it('a path where a ticket is due is refused: nothing the window sends becomes a path', async () => {
    await using kit = await openKit();
    const { desk } = kit;
    const folder = textOf(answered(await desk.act('make-folder', { title: 'Ridge' })), 'folder');
    const lot = textOf(answered(await desk.ask('new-lot', { folder, title: 'Ridge' }, {})), 'lot');
    const path = join(kit.root, 'beside.txt');
    const asked: readonly (readonly [string, unknown])[] = [
      ['/ask/open-lot', { argument: { folder: join(kit.root, 'lots', 'ridge') } }],
      ['/ask/new-lot', { argument: { folder: join(kit.root, 'planted'), title: 'x' } }],
      ['/ask/keep', { argument: { papers: [{ files: [path], kind: 'deed' }] }, asking: { lot } }],
      ['/ask/record', { argument: { sort: 'photo', title: 'x', file: path }, asking: { lot } }],
      ['/act/save', { argument: { ticket: path } }],
      ['/act/show-file', { argument: { ticket: `file://${path}` } }],
    ];
    for (const [address, body] of asked) {
      const reply = JSON.parse((await kit.post(address, body)).text);
      expect([address, reply]).toMatchObject([address, { ok: false, error: { code: 'wrong use' } }]);
    }
    expect(existsSync(join(kit.root, 'planted'))).toBe(false);
    // A ticket nobody was given is no ticket.
    const made = 't-00000000-0000-4000-8000-000000000000';
    expect((await kit.get(`/bytes/${made}`)).status).toBe(404);
  });

  it('pages, scripts and drawings with scripts go out as a download of bytes, never as something a browser runs', async () => {
    await using kit = await openKit();
    const hostile = '<script>alert(1)</script>';
    const names = [
      'a.html',
      'a.HTM',
      'a.xhtml',
      'a.svg',
      'a.js',
      'a.mjs',
      'a.xml',
      'a.mht',
      'a.eml',
      'a.pdf.html',
      'a',
    ];
    for (const name of [...names, 'a.pdf;text/html', 'a.json', 'a.wasm', 'a.css']) {
      const path = join(kit.root, 'hostile');
      writeFileSync(path, hostile);
      const { ticket } = kit.desk.take(path, name, hostile.length);
      const { headers, status } = await kit.get(`/bytes/${ticket}`);
      expect([name, status, headers['content-type']]).toEqual([name, 200, 'application/octet-stream']);
      expect(headers['content-disposition']).toMatch(/^attachment; /);
      expect(headers['x-content-type-options']).toBe('nosniff');
    }
    // A page that calls itself a PDF is served as one, and nosniff holds the browser to it.
    const path = join(kit.root, 'hostile');
    const { headers } = await kit.get(`/bytes/${kit.desk.take(path, 'deed.pdf', 1).ticket}`);
    expect([headers['content-type'], headers['x-content-type-options']]).toEqual(['application/pdf', 'nosniff']);
    expect(headers['content-security-policy']).toContain("default-src 'none'");
  });

  it('a strict policy stands on every answer, with a fresh nonce written into each page', async () => {
    await using kit = await openKit();
    const nonces = new Set<string>();
    for (const got of [
      await kit.get('/'),
      await kit.get('/'),
      await kit.get('/nothing'),
      await kit.post('/act/host', {}),
    ]) {
      const policy = String(got.headers['content-security-policy']);
      const [, nonce = ''] = /'nonce-([\w-]+)'/.exec(policy) ?? [];
      nonces.add(nonce);
      for (const rule of ["default-src 'none'", "script-src 'self'", "frame-ancestors 'none'", "base-uri 'none'"]) {
        expect(policy).toContain(rule);
      }
      expect(policy).not.toMatch(/unsafe|\*|https?:/);
      expect(got.headers['referrer-policy']).toBe('no-referrer');
      expect(got.headers['cross-origin-opener-policy']).toBe('same-origin');
      if (got.text.includes('csp-nonce')) expect(got.text).toContain(`content="${nonce}"`);
    }
    expect(nonces.size).toBe(4);
  });

  it('other kinds of request are refused', async () => {
    await using kit = await openKit();
    for (const method of ['PUT', 'OPTIONS'] as const) {
      const got = await send(kit.loopback.port, '/act/host', { method, headers: { ...kit.known, origin: kit.origin } });
      expect([got.status, got.headers['access-control-allow-origin']]).toEqual([405, undefined]);
    }
  });

  it('a second host of this person has a port and a cookie of its own; the first one’s does not open it', async () => {
    await using kit = await openKit();
    await using second = await openLoopback({ host: kit.desk, window: join(kit.root, 'window') });
    expect(second.port).not.toBe(kit.loopback.port);
    const headers = { host: `127.0.0.1:${second.port}`, cookie: kit.known.cookie ?? '' };
    expect((await send(second.port, '/', { headers })).status).toBe(403);
    const value = (kit.known.cookie ?? '').split('=')[1];
    const renamed = { ...headers, cookie: `lotfile-${second.port}=${value}` };
    expect((await send(second.port, '/', { headers: renamed })).status).toBe(403);
    expect(await enter(second)).toMatch(`lotfile-${second.port}=`);
  });
});
