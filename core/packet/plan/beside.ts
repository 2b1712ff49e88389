import type { PlanFile } from '../plan-model.ts';
import type { PlanFrame } from './frame.ts';
import type { BesideFile } from './leaves.ts';
import { shortHash } from './leaves.ts';
import { extensionOf } from './names.ts';

type Untouched = Extract<PlanFile, { of: 'untouched' }>;

export interface Beside {
  readonly files: readonly Untouched[];
  /** By tab. */
  readonly byTab: ReadonlyMap<number, readonly BesideFile[]>;
}

/** Files that go byte for byte: sealed papers always; with `untouched` every paper that has originals. */
export function besideFiles(frame: PlanFrame): Beside {
  const files: Untouched[] = [];
  const byTab = new Map<number, BesideFile[]>();
  let n = 0;
  for (const row of frame.rows) {
    if (row.beside.length === 0) continue;
    n += 1;
    for (const file of row.beside) {
      const parts = {
        n,
        tab: row.tab.tab,
        paper: row.tab.title,
        number: row.tab.number,
        day: frame.order.day,
        lot: frame.order.lot.title,
      };
      const name = frame.names.byPattern(parts, extensionOf(file.name));
      files.push({
        of: 'untouched',
        sort: row.sealed ? 'sealed' : 'upload',
        name,
        title: row.tab.title,
        tab: row.tab.tab,
        file,
      });
      byTab.set(row.tab.tab, [...(byTab.get(row.tab.tab) ?? []), { name, sha256: file.sha256 }]);
    }
  }
  for (const file of files.filter(({ sort }) => sort === 'sealed')) {
    frame.notes.push(
      `"${file.title}" carries a digital signature and travels as its own untouched file ${file.name} (SHA-256 ${shortHash(file.file.sha256)} …). That the bytes match proves neither a licence nor an approval.`,
    );
  }
  return { files, byTab };
}
