import type { PlanFile } from '../plan-model.ts';
import type { PlanFrame } from './frame.ts';
import type { BesideFile } from './leaves.ts';
import { shortHash } from './leaves.ts';
import { extensionOf, type NameParts } from './names.ts';
import type { Row } from './row.ts';

type Untouched = Extract<PlanFile, { of: 'untouched' }>;

export interface Beside {
  readonly files: readonly Untouched[];
  /** By tab. */
  readonly byTab: ReadonlyMap<number, readonly BesideFile[]>;
}

/** What a paper's file name is made of; {n} counts the papers that go as files of their own, in tab order. */
export function namePartsOf(frame: PlanFrame, row: Row): NameParts {
  const separate = frame.delivery.files === 'separate files';
  const filed = frame.rows.filter((one) => one.beside.length > 0 || (separate && one.pages.how === 'linked'));
  return {
    n: filed.indexOf(row) + 1,
    tab: row.tab.tab,
    paper: row.title,
    number: row.tab.number,
    day: frame.order.day,
    lot: frame.order.lot.title,
  };
}

/** Files that go byte for byte: sealed papers always; with `untouched` every paper that has originals. */
export function besideFiles(frame: PlanFrame): Beside {
  const files: Untouched[] = [];
  const byTab = new Map<number, BesideFile[]>();
  for (const row of frame.rows) {
    for (const file of row.beside) {
      const name = frame.names.byPattern(namePartsOf(frame, row), extensionOf(file.name));
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
