import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, expectTypeOf, it, vi } from 'vitest';
import { generalHelp } from '../../core/cli/help.ts';
import { runTerminal } from '../../core/cli/run-terminal.ts';
import { openDesk } from '../../core/desk/desk.ts';
import {
  type HostActAnswer,
  type HostActArgument,
  type HostActName,
  hostActs,
  type Reply,
  type RequestAnswer,
  type RequestArgument,
  type RequestName,
  requests,
  type WindowAsking,
  type WindowPort,
} from '../../core/desk/door.ts';
import { actRunners } from '../../electron/host/act-runners.ts';
import { startDesktop } from '../../electron/main/desktop.ts';
import { desktopPort } from '../../electron/preload/desktop-port.ts';
import { writePdf } from '../desk/small-lot.ts';
import { fakeElectron } from './fake-electron.ts';
import { answered, kitDay, openKit, scratch } from './hosts-kit.ts';

/** How one host is asked, whatever it is made of. */
type Ask = (name: string, argument: object) => Promise<Reply<unknown>>;

/** The terminal, spoken to in the words of a command line, answering as data. */
function terminal(folder: string): Ask {
  return async (name, argument) => {
    const words = Object.entries(argument).flatMap(([field, value]) => [
      `--${field.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)}`,
      String(value),
    ]);
    let printed = '';
    const write = vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
      printed += String(text);
      return true;
    });
    try {
      await runTerminal([name, ...words, '--lot', folder, '--on', kitDay, '--json']);
    } finally {
      write.mockRestore();
    }
    const said: { readonly answer?: unknown; readonly error?: never } = JSON.parse(printed);
    return said.error === undefined ? { ok: true, answer: said.answer } : { ok: false, error: said.error };
  };
}

/** Tickets and handles are a run's own; everything else has to be the same. */
function settled(value: unknown): unknown {
  const text = JSON.stringify(value, (_key, each: unknown) =>
    typeof each === 'string' && /^(t|lot)-[0-9a-f-]{36}$/.test(each) ? 'a ticket' : each,
  );
  return JSON.parse(text);
}

/** A lot with something in it: answers, a name, a paper, a firm. */
async function fill(folder: string, root: string): Promise<void> {
  await using desk = openDesk({ program: 'test', today: () => kitDay });
  const { lot } = await desk.ask('new-lot', { folder: desk.tickets.offer(folder), title: 'Ridge' });
  const at = { lot, on: kitDay };
  await desk.ask('answer', { question: 'sewage', answer: 'septic' }, at);
  await desk.ask('identity', { sort: 'place', text: '410 Ridge Rd' }, at);
  await desk.ask('engage', { firm: 'Hollow Framing', trade: 'framing', from: '2026-03-01' }, at);
  const deed = desk.tickets.offer(await writePdf(join(root, 'deed.pdf'), ['Warranty deed, book 212 page 40']));
  await desk.ask('keep', { papers: [{ files: [deed], kind: 'deed', issued: '2025-06-02' }] }, at);
}

const asked: readonly (readonly [RequestName, object])[] = [
  ['read-lot', {}],
  ['papers', {}],
  ['way', {}],
  ['today', {}],
  ['errand', { errand: 'permit-apply' }],
  ['plan', { errand: 'permit-apply' }],
  ['find', { text: 'warranty' }],
  ['packets', {}],
  ['handovers', {}],
  ['history', {}],
  ['practice', {}],
  // What goes wrong is told in the same words everywhere.
  ['errand', { errand: 'no-such-errand' }],
  ['find', { text: ' ' }],
  ['target', { day: '2026-02-30' }],
  ['purge', { edition: 'no such paper', reason: 'private' }],
];

describe('the contract is one', () => {
  it('in the answers: desktop, loopback and terminal say the same to the same request', async () => {
    using at = scratch();
    const folder = join(at.root, 'ridge');
    await fill(folder, at.root);
    const asking = async (ask: Ask): Promise<readonly unknown[]> => {
      const all: unknown[] = [];
      for (const [name, argument] of asked) all.push([name, argument, settled(await ask(name, argument))]);
      return all;
    };
    const byTerminal = await asking(terminal(folder));

    mkdirSync(join(at.root, 'window'));
    const electron = fakeElectron();
    const places = { config: join(at.root, 'config'), lots: join(at.root, 'lots') };
    const window = join(at.root, 'window');
    const desktop = await startDesktop({ parts: electron.parts, window, preload: '', places, today: () => kitDay });
    const [first] = electron.windows;
    if (desktop === undefined || first === undefined) throw new Error('The desktop host did not start.');
    const port = desktopPort(electron.preloadOf(first));
    const ticket = desktop.host.folderTicket(folder);
    const { lot } = answered(await port.ask('open-lot', { folder: ticket }, {}));
    const byDesktop = await asking((name, argument) =>
      // Untyped on purpose: what a wire brings.
      Reflect.apply(port.ask, port, [name, argument, { lot }]),
    );
    await desktop.host.close();

    await using kit = await openKit();
    const opened = kit.desk.folderTicket(folder);
    const handle = JSON.parse((await kit.post('/ask/open-lot', { argument: { folder: opened } })).text).answer.lot;
    const byLoopback = await asking(async (name, argument) =>
      JSON.parse((await kit.post(`/ask/${name}`, { argument, asking: { lot: handle } })).text),
    );

    const oks = byDesktop.map((row) => Reflect.get(Object(Array.isArray(row) ? row[2] : {}), 'ok'));
    expect(oks.filter((ok) => ok === true)).toHaveLength(11);
    expect(byLoopback).toEqual(byDesktop);
    expect(byTerminal).toEqual(byDesktop);
  });

  it('in the names: every request is reached by every host, and nothing else is', async () => {
    const electron = fakeElectron();
    using at = scratch();
    await using kit = await openKit();
    const places = { config: join(at.root, 'config'), lots: join(at.root, 'lots') };
    const desktop = await startDesktop({ parts: electron.parts, window: at.root, preload: '', places });
    const [first] = electron.windows;
    if (desktop === undefined || first === undefined) throw new Error('The desktop host did not start.');
    const port = desktopPort(electron.preloadOf(first));
    const help = generalHelp();
    // The terminal opens and closes the lot by itself.
    const byItself: readonly string[] = ['open-lot', 'close-lot'];
    const known = (reply: unknown): boolean => !JSON.stringify(reply).includes('There is no request');
    for (const name of [...Object.keys(requests), 'no-such-request', 'valueOf']) {
      const there = Object.hasOwn(requests, name);
      const overHttp = JSON.parse((await kit.post(`/ask/${name}`, { argument: { x: '' } })).text);
      const overIpc = await Reflect.apply(port.ask, port, [name, { x: '' }, {}]);
      const spoken = new RegExp(`^ {2}${name} `, 'm').test(help);
      expect([name, known(overHttp), known(overIpc)]).toEqual([name, there, there]);
      expect([name, spoken]).toEqual([name, there && !byItself.includes(name)]);
    }
    expect(new Set(Object.keys(actRunners))).toEqual(new Set(Object.keys(hostActs)));
    await desktop.host.close();
  });

  it('in the types: both windows speak the contract’s own port, and no answer is lost on the way', () => {
    expectTypeOf(desktopPort).returns.toEqualTypeOf<WindowPort>();
    expectTypeOf<Parameters<WindowPort['ask']>[0]>().toEqualTypeOf<RequestName>();
    expectTypeOf<Parameters<WindowPort['act']>[0]>().toEqualTypeOf<HostActName>();
    expectTypeOf<Parameters<WindowPort['ask']>[2]>().toEqualTypeOf<WindowAsking>();
    expectTypeOf<keyof typeof requests>().toEqualTypeOf<RequestName>();
    expectTypeOf<keyof typeof actRunners>().toEqualTypeOf<HostActName>();
    const port: Pick<WindowPort, 'ask' | 'act'> = desktopPort({
      ipcRenderer: { invoke: async () => undefined, send: () => undefined, on: () => 0, removeListener: () => 0 },
      webUtils: { getPathForFile: () => '' },
    });
    const find = (): Promise<Reply<RequestAnswer<'find'>>> => port.ask('find', { text: 'x' }, {});
    const card = (): Promise<Reply<HostActAnswer<'host'>>> => port.act('host', {});
    expectTypeOf(find).returns.resolves.toExtend<Reply<{ readonly found: readonly unknown[] }>>();
    expectTypeOf(card).returns.resolves.toExtend<Reply<{ readonly lots: readonly unknown[] }>>();
    expectTypeOf<RequestArgument<'find'>>().toExtend<{ text: string }>();
    expectTypeOf<HostActArgument<'save'>>().toEqualTypeOf<{ ticket: string }>();
    expect(port).toHaveProperty('ask');
  });
});
