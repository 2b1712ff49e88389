import { spawn, spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { writePdf } from '../desk/small-lot.ts';

const root = mkdtempSync(join(tmpdir(), 'lotfile-cli-'));
const lot = join(root, 'lot');
const program = join(import.meta.dirname, '..', '..', 'core', 'cli', 'lotfile.ts');

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function lotfile(words: readonly string[], env: Readonly<Record<string, string>> = {}): Ended {
  const ended = spawnSync(process.execPath, [program, ...words], {
    encoding: 'utf8',
    cwd: root,
    env: { ...process.env, ...env },
  });
  return { code: ended.status, out: ended.stdout, err: ended.stderr };
}

const atLot = ['--lot', lot, '--on', '2026-04-14'];

beforeAll(async () => {
  await writePdf(join(root, 'deed.pdf'), ['Warranty deed', 'Exhibit A']);
  await writePdf(join(root, 'plans.pdf'), ['Sheet A1']);
  writeFileSync(
    join(root, 'local.yaml'),
    [
      'title: Test County',
      'basis: { published: "Test County, permit handout", read: 2026-01-12 }',
      'errands:',
      '  permit-apply:',
      '    needs:',
      '      deed: { copies: 2 }',
      '',
    ].join('\n'),
  );
  expect(lotfile(['new-lot', lot, '--title', 'Heron Lane', '--amendments', 'local.yaml']).code).toBe(0);
  const kept = lotfile([
    'keep',
    'deed.pdf',
    '--kind',
    'deed',
    '--issued',
    '2025-06-02',
    '--fact',
    'parcel=041-22-0070',
    ...atLot,
  ]);
  expect(kept).toMatchObject({ code: 0, err: '' });
});

afterAll(() => rmSync(root, { recursive: true, force: true }));

describe('the terminal', () => {
  it('ends with 0 when done, and finds the lot from inside its folder', () => {
    const found = spawnSync(process.execPath, [program, 'find', 'warranty'], {
      cwd: join(lot, 'originals'),
      encoding: 'utf8',
    });
    expect(found).toMatchObject({ status: 0 });
    expect(found.stdout).toContain('Deed');
  });

  it('gives the answer as data with --json', () => {
    const { code, out } = lotfile(['papers', '--json', ...atLot]);
    expect(code).toBe(0);
    expect(JSON.parse(out).answer.papers).toMatchObject([{ kind: 'deed', state: 'in hand' }]);
  });

  it('ends with 1 on an error, which says what and what to do next', () => {
    writeFileSync(join(root, 'empty.pdf'), '');
    const { code, out } = lotfile(['keep', 'empty.pdf', ...atLot]);
    expect(code).toBe(1);
    expect(out).toMatch(/empty\.pdf/);
    const asData = lotfile(['errand', 'permit-aply', '--json', ...atLot]);
    expect(asData.code).toBe(1);
    expect(JSON.parse(asData.out).error).toMatchObject({ code: 'not found' });
  });

  it('ends with 2 on wrong use, naming the word that is wrong', () => {
    for (const words of [
      [],
      ['frobnicate'],
      ['answer'],
      ['find', 'a', 'b', ...atLot],
      ['way', '--on', 'tuesday', '--lot', lot],
    ]) {
      expect(lotfile(words).code, words.join(' ')).toBe(2);
    }
    expect(lotfile(['way', '--lot', root]).code).toBe(1);
    expect(lotfile(['frobnicate']).err).toContain('frobnicate');
  });

  it('ends with 3 when done but something would be refused', () => {
    const { code, out } = lotfile(['assemble', 'permit-apply', '--out', join(root, 'out'), ...atLot]);
    expect(out).toContain('DRAFT');
    expect(code).toBe(0);
    lotfile(['standing', 'deed', 'plan-review', 'refused', ...atLot]);
    const refused = lotfile(['assemble', 'permit-apply', '--out', join(root, 'out'), ...atLot]);
    expect(refused.code).toBe(3);
    expect(refused.out).toContain('REFUSED');
    expect(readdirSync(join(root, 'out')).some((name) => name.endsWith('.pdf'))).toBe(true);
  });

  it('ends with 4 when stopped with Ctrl-C, and leaves nothing half done', async () => {
    const pages = Array.from({ length: 400 }, (_, n) => `Page ${n + 1}`);
    await writePdf(join(root, 'long.pdf'), pages);
    const child = spawn(process.execPath, [program, 'keep', 'long.pdf', ...atLot], { cwd: root });
    // Stopped in the middle: the worker's file is there, and the keeping is not over.
    const working = join(lot, 'working');
    const ended = new Promise<number | null>((done) => child.on('exit', (code) => done(code)));
    const begun = setInterval(() => {
      if (readdirSync(working, { recursive: true }).length === 0) return;
      clearInterval(begun);
      child.kill('SIGINT');
    }, 20);
    const code = await ended;
    clearInterval(begun);
    expect(code).toBe(4);
    expect(readdirSync(working)).toEqual([]);
    expect(JSON.parse(lotfile(['papers', '--json', ...atLot]).out).answer.papers).toHaveLength(1);
    expect(lotfile(['verify', ...atLot])).toMatchObject({ code: 0, err: '' });
  });

  it('assembles the same bytes in two processes and two time zones', () => {
    const shas = [{ TZ: 'Pacific/Auckland' }, { TZ: 'America/Los_Angeles' }].map((env) => {
      const { out } = lotfile(['assemble', 'permit-apply', '--json', ...atLot], env);
      return JSON.parse(out).answer.files.map((file: { name: string; sha256: string }) => [file.name, file.sha256]);
    });
    expect(shas[0].length).toBeGreaterThan(1);
    expect(shas[0]).toEqual(shas[1]);
  });

  // Fixed bug: a number typed on the command line came as words, and the practice refused it.
  it('takes a clerk’s number as a number', () => {
    const said = ['clerk-said', 'errands.permit-apply.needs.plans.copies', '3', '--who', 'R. Amsel', ...atLot];
    expect(lotfile(said)).toMatchObject({ code: 0, err: '' });
    const { needs } = JSON.parse(lotfile(['errand', 'permit-apply', '--json', ...atLot]).out).answer;
    expect(needs.find((each: { need: string }) => each.need === 'plans').copies).toBe(3);
  });

  it('lays several files on the table at once, and keeps from there', () => {
    const laid = lotfile(['lay-down', 'deed.pdf', 'plans.pdf', ...atLot]);
    expect(laid).toMatchObject({ code: 0, err: '' });
    expect(laid.out).toContain('deed.pdf (kept already: Deed)');
    expect(lotfile(['keep', join(lot, 'table', 'plans.pdf'), '--kind', 'plans', ...atLot]).code).toBe(0);
    expect(readdirSync(join(lot, 'table'))).toEqual(['deed.pdf']);
    expect(lotfile(['put-aside', 'deed.pdf', ...atLot]).out).toContain('Put aside as deed.pdf.');
    expect(lotfile(['lay-down', 'none.pdf', ...atLot]).code).toBe(1);
  });

  it('keeps a scan as all the papers it looks like, in one go', async () => {
    const sheet = (title: string) => `${title}\n\nPermit No.: 26-0417\n\nDate Issued: 03/02/2026\n\nOwner: A. Brennick`;
    await writePdf(join(root, 'tray.pdf'), [sheet('SEPTIC PERMIT'), sheet('DRIVEWAY PERMIT')]);
    expect(lotfile(['read', 'tray.pdf', ...atLot]).out).toContain('keep-parts "tray.pdf"');
    const kept = lotfile(['keep-parts', 'tray.pdf', ...atLot]);
    expect(kept).toMatchObject({ code: 0, err: '' });
    expect(kept.out).toMatch(/Kept Septic permit: 1 page\.[\s\S]*Kept Driveway permit: 1 page\./);
    expect(lotfile(['keep-parts', 'tray.pdf', ...atLot])).toMatchObject({ code: 2, out: '' });
  });

  it('puts an errand sheet and a mail draft where the person says', () => {
    const out = join(root, 'made');
    expect(lotfile(['errand-sheet', 'permit-apply', '--out', out, ...atLot]).code).toBe(0);
    const { answer } = JSON.parse(lotfile(['packets', '--json', ...atLot]).out);
    const draft = ['mail-draft', answer.packets[0].packet, '--to', 'desk@county.example', '--out', out, ...atLot];
    expect(lotfile(draft)).toMatchObject({ code: 0, err: '' });
    expect(
      readdirSync(out)
        .map((name) => name.slice(-4))
        .toSorted((a, b) => (a < b ? -1 : 1)),
    ).toEqual(['.eml', '.pdf']);
    expect(lotfile(['mail-draft', answer.packets[0].packet, '--to', 'nobody', ...atLot]).code).toBe(2);
  });

  it('says how each command is written', () => {
    expect(lotfile(['--help']).out).toContain('assemble');
    expect(lotfile(['keep', '--help']).out).toContain('--good-through DAY');
  });
});
