import type { Errand, ErrandId, KindId, Need, Practice } from '../vocabulary/practice.ts';

/** One step of a loop: this errand waits for that one, because of a paper or a "before" rule. */
export interface LoopStep {
  readonly errand: ErrandId;
  readonly waitsFor: ErrandId;
  readonly because: string;
}

type Free = (kind: KindId) => boolean;

function errandsYielding(kind: KindId, practice: Practice): readonly ErrandId[] {
  return Object.values(practice.errands).flatMap((errand) => (errand.yields.includes(kind) ? [errand.id] : []));
}

function needCanBeMet(need: Need, reached: ReadonlySet<ErrandId>, free: Free, practice: Practice): boolean {
  if (need.optional || need.kinds.length === 0) return true;
  return need.kinds.some((kind) => free(kind) || errandsYielding(kind, practice).some((errand) => reached.has(errand)));
}

function canBeReached(errand: Errand, reached: ReadonlySet<ErrandId>, free: Free, practice: Practice): boolean {
  const waiting = errand.before.every(({ after }) =>
    'errand' in after
      ? reached.has(after.errand) || practice.errands[after.errand] === undefined
      : eventCanHappen(after.event, reached, practice),
  );
  return waiting && errand.needs.every((need) => needCanBeMet(need, reached, free, practice));
}

/** An event that no errand amounts to simply happens; one that some do needs one of these. */
function eventCanHappen(event: string, reached: ReadonlySet<ErrandId>, practice: Practice): boolean {
  const causing = Object.values(practice.errands).filter((errand) => errand.causes.includes(event));
  return causing.length === 0 || causing.some((errand) => reached.has(errand.id));
}

/** The first thing a stuck errand waits for that is itself stuck. */
function firstWait(errand: Errand, stuck: ReadonlySet<ErrandId>, free: Free, practice: Practice): LoopStep | undefined {
  for (const { after } of errand.before) {
    if ('errand' in after && stuck.has(after.errand)) {
      return { errand: errand.id, waitsFor: after.errand, because: 'it comes before' };
    }
    if (!('event' in after)) continue;
    const causing = Object.values(practice.errands).filter((one) => one.causes.includes(after.event));
    const first = causing[0];
    if (first !== undefined && causing.every((one) => stuck.has(one.id))) {
      return { errand: errand.id, waitsFor: first.id, because: `for the event ${after.event}` };
    }
  }
  const reached = new Set(Object.keys(practice.errands).filter((id) => !stuck.has(id)));
  for (const need of errand.needs) {
    if (needCanBeMet(need, reached, free, practice)) continue;
    for (const kind of need.kinds) {
      const waitsFor = errandsYielding(kind, practice).find((id) => stuck.has(id));
      if (waitsFor !== undefined) return { errand: errand.id, waitsFor, because: `for ${kind}` };
    }
  }
  return undefined;
}

/**
 * Finds errands that could never be the first because each waits for another of them.
 * Conditions are taken as applying; of several kinds that meet a need one is enough.
 * @param free kinds that need no errand
 * @returns the members in order, or nothing
 */
export function findLoop(practice: Practice, free: Free): readonly LoopStep[] {
  const stuck = new Set(Object.keys(practice.errands));
  const reached = new Set<ErrandId>();
  for (let moved = true; moved; ) {
    moved = false;
    for (const errand of Object.values(practice.errands)) {
      if (reached.has(errand.id) || !canBeReached(errand, reached, free, practice)) continue;
      reached.add(errand.id);
      stuck.delete(errand.id);
      moved = true;
    }
  }
  const steps: LoopStep[] = [];
  let next: ErrandId | undefined = [...stuck][0];
  while (next !== undefined && !steps.some((step) => step.errand === next)) {
    const errand: Errand | undefined = practice.errands[next];
    const step: LoopStep | undefined = errand === undefined ? undefined : firstWait(errand, stuck, free, practice);
    if (step === undefined) return steps;
    steps.push(step);
    next = step.waitsFor;
  }
  return steps.slice(steps.findIndex((step) => step.errand === next));
}
