import type { KindId, Practice } from './practice.ts';

/**
 * How far a paper may go by itself. `private`: practice says so (identity, income, bank). `no rule`: nothing is known
 * of it, so it may well be. `open`: an office may ask for it and hand it round.
 */
export type Privacy = 'private' | 'no rule' | 'open';

/** Papers nobody has a rule for are kept under this kind. */
export const ofNoRule = 'other';

/** Tells it by the paper's kind alone. */
export function privacyOf(kind: KindId, papers: Practice['papers']): Privacy {
  const known = Object.hasOwn(papers, kind) ? papers[kind] : undefined;
  if (known === undefined || kind === ofNoRule) return 'no rule';
  return known.private ? 'private' : 'open';
}

/** What is told before such a paper goes anywhere: "Copy of photo id" is private. Nothing of an open one. */
export function privacyInWords(title: string, privacy: Privacy): string | undefined {
  switch (privacy) {
    case 'private':
      return `"${title}" is private.`;
    case 'no rule':
      return `No rule knows "${title}": it may be private.`;
    case 'open':
      return undefined;
  }
}
