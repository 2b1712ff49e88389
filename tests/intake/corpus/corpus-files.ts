import { closeSync, openSync, readdirSync, readSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type FileSort, sniff, sniffLength } from '../../../core/intake/sniff.ts';
import { LotfileError } from '../../../core/vocabulary/errors.ts';
import type { WorkPort } from '../../../core/workers/port.ts';
import type { Fared, Opens } from './corpus-model.ts';
import { Judge } from './judge.ts';

export interface CorpusSettings {
  readonly workers: WorkPort;
  readonly folder: string;
  /** For what is made on the way. */
  readonly working: string;
  readonly lanes: number;
  readonly mostPages: number;
  onFile(fared: Fared, done: number, of: number): void;
}

/** Every file of a folder and its folders, in a fixed order. */
export function filesUnder(folder: string): readonly string[] {
  const entries = readdirSync(folder, { withFileTypes: true, recursive: true });
  return entries
    .flatMap((entry) => (entry.isFile() ? [join(entry.parentPath, entry.name)] : []))
    .toSorted((a, b) => (a < b ? -1 : 1));
}

export function sortOf(path: string): FileSort {
  const head = Buffer.alloc(sniffLength);
  const fd = openSync(path, 'r');
  try {
    return sniff(head.subarray(0, readSync(fd, head)));
  } finally {
    closeSync(fd);
  }
}

interface Lane {
  readonly judge: Judge;
  readonly output: string;
}

/** A picture has no pages to compare with here: its dots were compared when it was laid. */
async function keepOne(path: string, { workers, mostPages }: CorpusSettings, { judge, output }: Lane) {
  const name = 'paper';
  try {
    const { rendition } = await workers.keep({ job: 'keep', input: path, name, output });
    const { rung, pages, notes } = rendition;
    const facts = `${output}.facts`;
    writeFileSync(facts, JSON.stringify(pages));
    const asPictures = rung === 'pages as pictures';
    const order = { ask: 'same look', original: path, kept: output, packet: `${output}.packet`, facts } as const;
    const judged = rung === 'picture to page' ? {} : await judge.ask({ ...order, asPictures, mostPages });
    rmSync(facts, { force: true });
    return { rung, pages: pages.length, notes, differences: judged.differences ?? [] };
  } catch (problem) {
    const { code, message } = LotfileError.from(problem);
    const say = message.replace(`"${name}"`, '...');
    return { refused: code === 'file refused' ? say : `${code}: ${say}`, notes: [], differences: [] };
  } finally {
    rmSync(output, { force: true });
  }
}

async function fare(path: string, settings: CorpusSettings, lane: Lane): Promise<Fared> {
  const sort = sortOf(path);
  const started = performance.now();
  const seen: Opens = sort === 'pdf' ? ((await lane.judge.ask({ ask: 'opens', path })).opens ?? 'opens') : 'opens';
  const done = await keepOne(path, settings, lane);
  const milliseconds = Math.round(performance.now() - started);
  return { file: path.slice(settings.folder.length + 1), sort, opens: seen, milliseconds, ...done };
}

/** Keeps every file under a folder, links what was kept into a packet, and looks at both, page by page. */
export async function corpusFiles(settings: CorpusSettings): Promise<readonly Fared[]> {
  const files = filesUnder(settings.folder);
  const queue = files.values();
  const found: Fared[] = [];
  const run = async (_: unknown, at: number): Promise<void> => {
    const lane = { judge: new Judge(), output: join(settings.working, `kept-${at}`) };
    for (const path of queue) {
      const fared = await fare(path, settings, lane);
      found.push(fared);
      settings.onFile(fared, found.length, files.length);
    }
    lane.judge.close();
  };
  await Promise.all(Array.from({ length: settings.lanes }, run));
  return found.toSorted((a, b) => (a.file < b.file ? -1 : 1));
}
