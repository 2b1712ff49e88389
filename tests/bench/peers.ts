import { spawnSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { PDFDocument } from 'pdf-lib';

/** A general program, or a row of them, that makes one file of many. */
export interface Peer {
  readonly name: string;
  /** Milliseconds of one run, start of the programs included. @throws Error where one fails */
  readonly run: () => number;
  /** Runs worth waiting for. */
  readonly rounds: number;
}

export interface PeerSources {
  readonly files: readonly string[];
  readonly pagesOf: readonly number[];
  readonly folder: string;
}

export function installed(command: string): boolean {
  return spawnSync(command, ['--version']).error === undefined;
}

function ran(command: string, args: readonly string[]): string {
  const ended = spawnSync(command, args, { encoding: 'utf8', maxBuffer: 1 << 30 });
  // qpdf ends with 3 where it had something to say and did the work all the same.
  if (ended.status !== 0 && ended.status !== 3) throw new Error(`${command}: ${ended.stderr}`);
  return ended.stdout;
}

function timed(work: () => void): number {
  const begun = performance.now();
  work();
  return performance.now() - begun;
}

/** One small line for the margin of each page, as a file to lay over the merged one. */
export async function writeStamps(path: string, pages: number): Promise<void> {
  const document = await PDFDocument.create({ updateMetadata: false });
  for (let page = 1; page <= pages; page += 1) {
    document.addPage([612, 792]).drawText(`EVERYTHING ${page} of ${pages}`, { x: 40, y: 12, size: 7 });
  }
  writeFileSync(path, await document.save({ useObjectStreams: false, objectsPerTick: Number.POSITIVE_INFINITY }));
}

/** qpdf's own JSON of changes (its manual, "qpdf JSON", version 2): the catalog gets an outline, an entry a paper. */
function outlineChanges(stamped: string, pagesOf: readonly number[]): string {
  const known = JSON.parse(
    ran('qpdf', ['--json=2', '--json-key=pages', '--json-key=qpdf', '--json-object=trailer', stamped]),
  );
  const [{ maxobjectid }, { trailer }] = known.qpdf;
  const root: string = trailer.value['/Root'];
  const catalog = JSON.parse(
    ran('qpdf', ['--json=2', '--json-key=qpdf', `--json-object=${root.replace(' R', '').replace(' ', ',')}`, stamped]),
  );
  const old: object = catalog.qpdf[1][`obj:${root}`].value;
  const top = maxobjectid + 1;
  const at = (n: number): string => `${top + 1 + n} 0 R`;
  const objects: Record<string, unknown> = {
    [`obj:${root}`]: { value: { ...old, '/Outlines': `${top} 0 R` } },
    [`obj:${top} 0 R`]: {
      value: { '/Type': '/Outlines', '/First': at(0), '/Last': at(pagesOf.length - 1), '/Count': pagesOf.length },
    },
  };
  let page = 0;
  for (const [n, pages] of pagesOf.entries()) {
    const before = n === 0 ? {} : { '/Prev': at(n - 1) };
    const after = n + 1 === pagesOf.length ? {} : { '/Next': at(n + 1) };
    const dest = [known.pages[page].object, '/Fit'];
    objects[`obj:${at(n)}`] = {
      value: { '/Title': `u:Paper ${n + 1}`, '/Parent': `${top} 0 R`, '/Dest': dest, ...before, ...after },
    };
    page += pages;
  }
  return JSON.stringify({
    qpdf: [
      {
        jsonversion: 2,
        pdfversion: '1.7',
        pushedinheritedpageresources: false,
        calledgetallpages: false,
        maxobjectid: top + pagesOf.length,
      },
      objects,
    ],
  });
}

/** Bare merges by native programs, and the row of commands by hand that gives what a packet gives. */
export function peersOf({ files, pagesOf, folder }: PeerSources): readonly Peer[] {
  const out = join(folder, 'peer.pdf');
  const step = (name: string): string => join(folder, `hand-${name}`);
  const merge = (to: string): string[] => ['--empty', '--pages', ...files, '--', to];
  const byHand = (): void => {
    ran('qpdf', merge(step('merged.pdf')));
    ran('qpdf', [step('merged.pdf'), '--overlay', step('stamps.pdf'), '--', step('stamped.pdf')]);
    writeFileSync(step('outline.json'), outlineChanges(step('stamped.pdf'), pagesOf));
    ran('qpdf', [step('stamped.pdf'), `--update-from-json=${step('outline.json')}`, step('done.pdf')]);
    ran('sha256sum', [step('done.pdf')]);
  };
  const all: readonly (Peer & { readonly needs: string })[] = [
    { name: 'qpdf, bare merge', needs: 'qpdf', rounds: 5, run: () => timed(() => ran('qpdf', merge(out))) },
    {
      name: 'mutool, bare merge',
      needs: 'mutool',
      rounds: 3,
      run: () => timed(() => ran('mutool', ['merge', '-o', out, ...files])),
    },
    {
      name: 'pdfunite, bare merge',
      needs: 'pdfunite',
      rounds: 1,
      run: () => timed(() => ran('pdfunite', [...files, out])),
    },
    { name: 'by hand: merge, stamps over it, outline, hash', needs: 'qpdf', rounds: 2, run: () => timed(byHand) },
  ];
  return all.filter(({ needs }) => installed(needs));
}

export function stampsPath(folder: string): string {
  return join(folder, 'hand-stamps.pdf');
}
