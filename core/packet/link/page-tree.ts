import type { FinishedFile } from './finished-file.ts';
import { dict, FinishedRef, name } from './syntax/values.ts';

/** Kids per node: readers find a page in three steps even in very long packets. */
const width = 64;

interface Node {
  readonly num: number;
  readonly kids: readonly number[];
  readonly count: number;
}

export interface PageTree {
  readonly root: FinishedRef;
  /** Number of the node above each page, in page order. */
  readonly parents: readonly number[];
}

/** Writes a balanced page tree over reserved page numbers. */
export function writePageTree(out: FinishedFile, pages: readonly number[]): PageTree {
  const parents: number[] = [];
  let level = gather(
    out,
    pages.map((num) => ({ num, kids: [], count: 1 })),
  );
  for (const node of level) for (let i = 0; i < node.kids.length; i += 1) parents.push(node.num);
  while (level.length > 1) {
    const above = gather(out, level);
    for (const node of above)
      writeNodes(
        out,
        level.filter(({ num }) => node.kids.includes(num)),
        node.num,
      );
    level = above;
  }
  const top = level[0];
  if (top === undefined) return { root: out.add(dict({ Type: name('Pages'), Kids: [], Count: 0 })), parents };
  writeNodes(out, level, undefined);
  return { root: new FinishedRef(top.num), parents };
}

function gather(out: FinishedFile, below: readonly Node[]): readonly Node[] {
  const nodes: Node[] = [];
  for (let from = 0; from < below.length; from += width) {
    const kids = below.slice(from, from + width);
    nodes.push({
      num: out.reserve(),
      kids: kids.map(({ num }) => num),
      count: kids.reduce((sum, { count }) => sum + count, 0),
    });
  }
  return nodes;
}

function writeNodes(out: FinishedFile, nodes: readonly Node[], parent: number | undefined): void {
  for (const { num, kids, count } of nodes) {
    out.write(
      num,
      dict({
        Type: name('Pages'),
        Parent: parent === undefined ? undefined : new FinishedRef(parent),
        Kids: kids.map((kid) => new FinishedRef(kid)),
        Count: count,
      }),
    );
  }
}
