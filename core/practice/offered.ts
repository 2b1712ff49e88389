import type { Errand, ErrandId, KindId, Need, PaperKind, Practice } from '../vocabulary/practice.ts';

/** Errands that are written down and don't exist here, and the papers that would only have come from them. */
interface Gone {
  readonly errands: ReadonlySet<ErrandId>;
  readonly kinds: ReadonlySet<KindId>;
}

function goneFrom(practice: Practice, errands: ReadonlySet<ErrandId>, brought: ReadonlySet<KindId>): Gone {
  const all = Object.values(practice.errands);
  const here = new Set(all.filter(({ id }) => !errands.has(id)).flatMap(({ yields }) => yields));
  const only = all.filter(({ id }) => errands.has(id)).flatMap(({ yields }) => yields);
  const ownersOwn = (kind: KindId): boolean => practice.offices[practice.papers[kind]?.from ?? '']?.sort === 'owner';
  return { errands, kinds: new Set(only.filter((kind) => !here.has(kind) && !brought.has(kind) && !ownersOwn(kind))) };
}

function withoutNeeds(errand: Errand, { errands, kinds }: Gone): Errand {
  const needs = errand.needs.flatMap((need): readonly Need[] => {
    const left = need.kinds.filter((kind) => !kinds.has(kind));
    if (left.length === need.kinds.length) return [need];
    return left.length === 0 ? [] : [{ ...need, kinds: left }];
  });
  return {
    ...errand,
    needs,
    before: errand.before.filter(({ after }) => !('errand' in after && errands.has(after.errand))),
    restarts: errand.restarts.filter((kind) => !kinds.has(kind)),
  };
}

function withoutKinds(paper: PaperKind, { kinds }: Gone): PaperKind {
  const { extension } = paper;
  return {
    ...paper,
    madeFrom: paper.madeFrom.filter((kind) => !kinds.has(kind)),
    clocks: paper.clocks.filter((clock) => clock.sort !== 'while' || !kinds.has(clock.kind)),
    extension: extension === undefined || kinds.has(extension.by) ? undefined : extension,
  };
}

function kept<T extends { readonly id: string }>(rules: readonly T[]): Readonly<Record<string, T>> {
  return Object.fromEntries(rules.map((rule) => [rule.id, rule]));
}

/**
 * The practice without the errands that say `exists: no`, and without whatever only they would have brought: their
 * papers, the needs, "before" rules, agreements, duties and holds that hang on them alone. They stay under `offered`,
 * so that one word (`exists: yes`) brings an errand in with everything that asks for it.
 */
export function withoutOffered(
  practice: Practice,
  offered: ReadonlySet<ErrandId>,
  brought: ReadonlySet<KindId>,
): Practice {
  if (offered.size === 0) return practice;
  const gone = goneFrom(practice, offered, brought);
  const { papers, errands, agreements, duties, holds } = practice;
  return {
    ...practice,
    papers: kept(
      Object.values(papers)
        .filter(({ id }) => !gone.kinds.has(id))
        .map((paper) => withoutKinds(paper, gone)),
    ),
    errands: kept(
      Object.values(errands)
        .filter(({ id }) => !offered.has(id))
        .map((errand) => withoutNeeds(errand, gone)),
    ),
    offered: kept(Object.values(errands).filter(({ id }) => offered.has(id))),
    agreements: kept(
      Object.values(agreements).filter(
        ({ terms }) => !terms.some((term) => term.of === 'paper' && gone.kinds.has(term.kind)),
      ),
    ),
    duties: kept(Object.values(duties).filter(({ kind }) => !gone.kinds.has(kind))),
    holds: kept(
      Object.values(holds).flatMap((hold) => {
        const until = hold.until.filter((id) => !offered.has(id));
        return until.length === 0 ? [] : [{ ...hold, until }];
      }),
    ),
  };
}
