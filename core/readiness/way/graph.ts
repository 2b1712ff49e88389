import type { SubjectId } from '../../vocabulary/lot.ts';
import type { Errand, EventId, KindId } from '../../vocabulary/practice.ts';
import { appliesAt } from '../condition-at.ts';
import { subjectFor } from '../current.ts';
import { caseKey, casesOf, errandApplies, latestVisit } from '../errand-case.ts';
import { type Examined, examine } from '../examine.ts';
import { type ErrandCase, happenedOn, type Standpoint } from '../standpoint.ts';

/** Something an errand waits for; one of these errands is enough to bring it. */
export type Group = readonly string[];

export interface Node {
  readonly key: string;
  readonly one: ErrandCase;
  readonly examined: Examined;
  /** All have to be met, each by any one of its errands. Empty where nothing is left to wait for. */
  readonly groups: readonly Group[];
}

/** Errands still to be settled hold others up; settled ones and those that don't apply don't. */
function isOpen(node: { readonly examined: Examined }): boolean {
  return node.examined.state !== 'settled' && node.examined.state !== "doesn't apply";
}

interface Draft {
  readonly key: string;
  readonly one: ErrandCase;
  readonly examined: Examined;
}

function allCases(at: Standpoint): readonly Draft[] {
  return at.rules.errands
    .flatMap((errand) => (errandApplies(at, errand) === false ? [{ errand, subject: undefined }] : casesOf(at, errand)))
    .map((one) => ({ key: caseKey(one), one, examined: examine(at, one) }));
}

class GroupMaker {
  readonly #at: Standpoint;
  readonly #drafts: ReadonlyMap<string, Draft>;

  constructor(at: Standpoint, drafts: ReadonlyMap<string, Draft>) {
    this.#at = at;
    this.#drafts = drafts;
  }

  /** Open errands of a list, for one subject where they are run per subject of that sort. */
  #open(errands: readonly Errand[], subject: SubjectId | undefined, self: string): string[] {
    return errands.flatMap((errand) => {
      const own = subject !== undefined && this.#at.index.subjects.get(subject)?.sort === errand.each;
      return casesOf(this.#at, errand)
        .filter((one) => !own || one.subject === subject)
        .map(caseKey)
        .filter((key) => key !== self && this.#isOpen(key));
    });
  }

  #isOpen(key: string): boolean {
    const draft = this.#drafts.get(key);
    return draft !== undefined && isOpen(draft);
  }

  /** Any open errand that yields one of the kinds; where a settled one should have, nothing is waited for. */
  #yielders(kinds: readonly KindId[], subject: SubjectId | undefined, self: string): Group[] {
    const keys = kinds.flatMap((kind) =>
      this.#open(this.#at.rules.yielders.get(kind) ?? [], subjectFor(this.#at, kind, subject) ?? subject, self),
    );
    return keys.length === 0 ? [] : [[...new Set(keys)]];
  }

  /** An approval comes from the office's errand that takes the paper in. */
  #approvers(kind: KindId, office: string, self: string): Group[] {
    const errands = (this.#at.rules.wanters.get(kind) ?? []).filter(
      (errand) =>
        errand.office === office &&
        errand.needs.some((need) => need.kinds.includes(kind) && need.approvedBy === undefined),
    );
    const keys = this.#open(errands, undefined, self);
    return keys.length === 0 ? [] : [keys];
  }

  #errand(id: string, subject: SubjectId | undefined, self: string): Group[] {
    const errand = Object.hasOwn(this.#at.practice.errands, id) ? this.#at.practice.errands[id] : undefined;
    return errand === undefined ? [] : this.#open([errand], subject, self).map((key) => [key]);
  }

  /** An event waits for the errand that causes it, or else for what keeps it shut. */
  event(event: EventId, self: string): Group[] {
    if (happenedOn(this.#at, event) !== undefined) return [];
    const causers = this.#open(this.#at.rules.causers.get(event) ?? [], undefined, self);
    return causers.length > 0 ? [causers] : this.#held(event, self);
  }

  #held(event: EventId, self: string): Group[] {
    return (this.#at.rules.holdsOf.get(event) ?? [])
      .filter((hold) => appliesAt(this.#at, hold.when) !== false)
      .flatMap((hold) => hold.until.flatMap((id) => this.#errand(id, undefined, self)));
  }

  groupsOf({ key, one, examined }: Draft): readonly Group[] {
    const needs = examined.needs
      .filter((draft) => draft.unmet)
      .flatMap((draft) => {
        const { approvedBy, kinds } = draft.need;
        const lacking = draft.problems.some((problem) => problem.sort === 'not approved');
        if (lacking && approvedBy !== undefined) return this.#approvers(draft.reading.kind, approvedBy, key);
        const cures = draft.problems.flatMap(({ mend }) => (mend.do === 'get' ? [mend.kind] : []));
        return this.#yielders([...new Set([...kinds, ...cures])], draft.reading.subject, key);
      });
    const befores = one.errand.before
      .filter((before) => appliesAt(this.#at, before.when) !== false)
      .flatMap((before) =>
        'event' in before.after
          ? this.event(before.after.event, key)
          : this.#errand(before.after.errand, one.subject, key),
      );
    const holds = one.errand.causes
      .filter((event) => happenedOn(this.#at, event) === undefined)
      .flatMap((event) => this.#held(event, key));
    return [...needs, ...befores, ...holds];
  }
}

export interface Graph {
  readonly nodes: readonly Node[];
  readonly byKey: ReadonlyMap<string, Node>;
  /** What an event still waits for. */
  readonly eventGroups: (event: EventId) => readonly Group[];
}

/** Who waits for whom, in practice order. One that is left with an office waits for nothing more. */
export function graphOf(at: Standpoint): Graph {
  const drafts = allCases(at);
  const maker = new GroupMaker(at, new Map(drafts.map((draft) => [draft.key, draft])));
  const nodes = drafts.map((draft) => ({
    ...draft,
    groups: isOpen(draft) && latestVisit(at, draft.one)?.state !== 'left with them' ? maker.groupsOf(draft) : [],
  }));
  return {
    nodes,
    byKey: new Map(nodes.map((node) => [node.key, node])),
    eventGroups: (event) => maker.event(event, ''),
  };
}
