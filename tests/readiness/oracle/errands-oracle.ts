import { addDays, addSpan, type Day, latest } from '../../../core/vocabulary/days.ts';
import type { ErrandState } from '../../../core/vocabulary/finding.ts';
import type { Visit } from '../../../core/vocabulary/lot.ts';
import type { Errand, Hold, Need } from '../../../core/vocabulary/practice.ts';
import {
  accepted,
  allHeld,
  arrived,
  current,
  eventDay,
  type Held,
  linking,
  openOn,
  resultSays,
  truth,
  validity,
  type World,
} from './papers-oracle.ts';

/** Errands once per lot only: subjects are tested by themselves. */
function lastVisit(world: World, errand: Errand): Visit | undefined {
  let last: Visit | undefined;
  for (const visit of world.lot.visits) {
    if (visit.errand !== errand.id || visit.state === 'planned' || visit.day > world.day) continue;
    if (last === undefined || visit.day >= last.day) last = visit;
  }
  return last;
}

function visitSettles(errand: Errand, visit: Visit): boolean {
  if (visit.state !== 'settled') return false;
  if (visit.outcome === undefined) return !errand.inspection;
  return ['pass', 'pass with corrections', 'letter in lieu'].includes(visit.outcome);
}

export function concerns(world: World, errand: Errand): boolean | 'unknown' {
  return world.practice.offices[errand.office]?.exists === false ? false : truth(world, errand.when);
}

function heldOnce(world: World, kind: string): boolean {
  return allHeld(world).some(({ paper, edition }) => paper.kind === kind && accepted(world, edition));
}

function done(world: World, errand: Errand): boolean {
  let visited: boolean | undefined;
  let on = '';
  for (const visit of world.lot.visits) {
    if (visit.errand !== errand.id || visit.day > world.day || visit.state === 'planned' || visit.day < on) continue;
    const settles = visitSettles(errand, visit);
    if (!settles && visit.outcome !== 'fail') continue;
    visited = settles;
    on = visit.day;
  }
  if (visited === false) return false;
  if (errand.inspection) return inspected(world, errand, visited === true ? on : undefined);
  return visited === true || (errand.yields.length > 0 && errand.yields.every((kind) => heldOnce(world, kind)));
}

/** Passed by a visit that no later result gainsays; without one, only where every result in hand says so. */
function inspected(world: World, errand: Errand, passedOn: string | undefined): boolean {
  const results = errand.yields.map((kind) => {
    const held = current(world, kind);
    if (held === undefined) return { says: 'nothing', on: '' };
    const on = held.edition.issued ?? held.edition.received;
    return { says: resultSays(world, errand, held.edition), on };
  });
  if (passedOn !== undefined) return !results.some(({ says, on }) => says === 'not passed' && on >= passedOn);
  const partly = world.lot.visits.some(
    (visit) =>
      visit.errand === errand.id && visit.day <= world.day && visit.state !== 'planned' && visit.outcome === 'partial',
  );
  return !partly && results.length > 0 && results.every(({ says }) => says === 'passed');
}

export function stale(world: World, held: Held, path: readonly string[] = []): boolean {
  return held.edition.links.some((link) => {
    if (link.word !== 'made from') return false;
    const source = allHeld(world).find((other) => other.edition.id === link.to);
    if (source === undefined) return false;
    const approvals = new Map<string, string>();
    for (const { office, word, day } of [...source.edition.standings].sort((a, b) =>
      a.day < b.day ? -1 : a.day > b.day ? 1 : 0,
    )) {
      if (word !== 'received' && day <= world.day) approvals.set(office, word);
    }
    const office = [...approvals].find(([, word]) => word === 'approved')?.[0];
    const counts = (by: Held): boolean => {
      if (office === undefined) return true;
      const words = [...by.edition.standings].filter(
        (one) => one.office === office && one.word !== 'received' && one.day <= world.day,
      );
      words.sort((a, b) => (a.day < b.day ? -1 : a.day > b.day ? 1 : 0));
      return words.at(-1)?.word === 'approved';
    };
    if (linking(world, source.edition, 'replaces').some((by) => counts(by))) return true;
    const now = current(world, source.paper.kind, source.paper.subject, office);
    const carries = now?.edition.links.some(
      (other) => other.to === source.edition.id && ['continues', 'amends', 'extends'].includes(other.word),
    );
    if (
      now !== undefined &&
      now.paper.id === source.paper.id &&
      now.edition.id !== source.edition.id &&
      carries !== true
    ) {
      const [newer, older] = [now, source].map(({ edition }) => edition.issued ?? edition.received);
      if (newer !== undefined && older !== undefined && newer >= older) return true;
    }
    return !path.includes(source.edition.id) && stale(world, source, [...path, source.edition.id]);
  });
}

function wantedStill(world: World, kind: string): boolean {
  const duty = Object.values(world.practice.duties).some(
    (one) =>
      one.kind === kind &&
      truth(world, one.when) !== false &&
      eventDay(world, one.to) === undefined &&
      (one.from === undefined || eventDay(world, one.from) !== undefined),
  );
  return (
    duty ||
    Object.values(world.practice.errands).some(
      (errand) =>
        concerns(world, errand) !== false &&
        !done(world, errand) &&
        errand.needs.some(
          (need) =>
            need.kinds.includes(kind) &&
            !need.optional &&
            need.use !== 'bring home' &&
            truth(world, need.when) !== false,
        ),
    )
  );
}

function ranOut(world: World, errand: Errand): boolean {
  return errand.yields.some((kind) => {
    if (!allHeld(world).some(({ paper }) => paper.kind === kind)) return false;
    const held = current(world, kind);
    const gone =
      held === undefined ? !heldOnce(world, kind) : validity(world, held).good === false || stale(world, held);
    return gone && wantedStill(world, kind);
  });
}

function settled(world: World, errand: Errand): boolean {
  return lastVisit(world, errand)?.state !== 'sent back' && done(world, errand) && !ranOut(world, errand);
}

function behind(world: World, errand: Errand): boolean {
  return concerns(world, errand) === false || settled(world, errand);
}

/** A report on work that did not pass, as long as nobody has passed it since. */
function tellsOfFailure(world: World, kind: string, held: Held): boolean {
  const all = Object.values(world.practice.errands);
  const inspection = all.find((errand) => errand.inspection && errand.yields.includes(kind));
  if (inspection === undefined || behind(world, inspection)) return false;
  return resultSays(world, inspection, held.edition) === 'not passed';
}

/** Met: a current edition that is there, readable, good through the margin, fresh, in force and not stale. */
export function needMet(world: World, need: Need): boolean {
  return need.kinds.some((kind) => {
    const held = current(world, kind, undefined, need.approvedBy);
    if (held === undefined || !arrived(world, held.edition) || !held.edition.readable) return false;
    const { good, through } = validity(world, held);
    if (good === false || stale(world, held)) return false;
    const margin = need.goodFor === undefined ? undefined : addSpan(world.day, need.goodFor);
    if (good === true && margin !== undefined && through !== 'for good' && through < margin) return false;
    const { issued, effective } = held.edition;
    if (effective !== undefined && effective > world.day) return false;
    if (tellsOfFailure(world, kind, held)) return false;
    return need.fresh === undefined || issued === undefined || addSpan(issued, need.fresh) >= world.day;
  });
}

function binding(need: Need): boolean {
  return !need.optional && need.use !== 'bring home';
}

function shut(world: World, hold: Hold, self: string): Errand[] {
  if (truth(world, hold.when) === false) return [];
  return hold.until.flatMap((id) => {
    const errand = world.practice.errands[id];
    return errand === undefined || id === self || behind(world, errand) ? [] : [errand];
  });
}

function holdsOn(world: World, event: string): Hold[] {
  return Object.values(world.practice.holds).filter((hold) => hold.event === event);
}

/** Of what keeps a hold shut, whatever surely is an errand of this lot. */
function surely(world: World, errands: readonly Errand[]): boolean {
  return errands.some((errand) => concerns(world, errand) === true);
}

/** Can't go: an unmet need that surely applies, something that must come first, or a hold. */
function cantGo(world: World, errand: Errand): boolean {
  if (errand.needs.some((need) => binding(need) && truth(world, need.when) === true && !needMet(world, need)))
    return true;
  const before = errand.before.some((one) => {
    if (truth(world, one.when) !== true) return false;
    if ('event' in one.after) return eventDay(world, one.after.event) === undefined;
    const other = world.practice.errands[one.after.errand];
    return other !== undefined && concerns(world, other) === true && !behind(world, other);
  });
  if (before) return true;
  const ahead = errand.causes.some(
    (event) =>
      eventDay(world, event) === undefined &&
      holdsOn(world, event).some(
        (hold) => truth(world, hold.when) === true && surely(world, shut(world, hold, errand.id)),
      ),
  );
  const overtaken = Object.values(world.practice.holds).some(
    (hold) =>
      hold.until.includes(errand.id) &&
      truth(world, hold.when) === true &&
      eventDay(world, hold.event) !== undefined &&
      concerns(world, errand) === true &&
      !behind(world, errand),
  );
  return ahead || overtaken;
}

export function stateOf(world: World, errand: Errand): ErrandState {
  if (concerns(world, errand) === false) return "doesn't apply";
  if (settled(world, errand)) return 'settled';
  const state = lastVisit(world, errand)?.state;
  if (state === 'left with them' || state === 'sent back') return state;
  return cantGo(world, errand) ? "can't go yet" : 'can go';
}

/** Everything an errand waits for, as lists of which any one member is enough. */
function waits(world: World, errand: Errand): string[][] {
  const isOpen = (id: string): boolean => {
    const other = world.practice.errands[id];
    return other !== undefined && id !== errand.id && !['settled', "doesn't apply"].includes(stateOf(world, other));
  };
  const all = Object.values(world.practice.errands);
  const held = (event: string): string[][] =>
    holdsOn(world, event)
      .filter((hold) => truth(world, hold.when) !== false)
      .flatMap((hold) => hold.until.filter(isOpen).map((id) => [id]));
  const lists: string[][] = [];
  for (const need of errand.needs) {
    if (!binding(need) || truth(world, need.when) === false || needMet(world, need)) continue;
    const extensions = need.kinds.flatMap((kind) => {
      const rule = world.practice.papers[kind]?.extension;
      return rule === undefined ? [] : [rule.by];
    });
    if (extensions.length > 0 || need.approvedBy !== undefined)
      throw new Error('The oracle knows no extension or approval on the way.');
    lists.push(
      all
        .filter((other) => other.yields.some((kind) => need.kinds.includes(kind)) && isOpen(other.id))
        .map((other) => other.id),
    );
  }
  for (const before of errand.before) {
    if (truth(world, before.when) === false) continue;
    if ('errand' in before.after) {
      if (isOpen(before.after.errand)) lists.push([before.after.errand]);
      continue;
    }
    const { event } = before.after;
    if (eventDay(world, event) !== undefined) continue;
    const causers = all.filter((other) => other.causes.includes(event) && isOpen(other.id)).map((other) => other.id);
    if (causers.length > 0) lists.push(causers);
    else lists.push(...held(event));
  }
  for (const event of errand.causes) if (eventDay(world, event) === undefined) lists.push(...held(event));
  return lists.filter((list) => list.length > 0);
}

export interface Dates {
  readonly earliest: Day;
  readonly done: Day;
}

/** Starts with no errand ever back and lets dates fall until none moves; what never gets one is a loop. */
export function wayDates(world: World): Map<string, Dates> | 'loop' {
  const open = Object.values(world.practice.errands).filter(
    (errand) => !['settled', "doesn't apply"].includes(stateOf(world, errand)),
  );
  const back = (errand: Errand, start: Day): Day =>
    openOn(world, addSpan(start, errand.takes?.to ?? {}, world.practice.holidays));
  const lists = new Map(
    open.map((errand) => [errand.id, stateOf(world, errand) === 'left with them' ? [] : waits(world, errand)]),
  );
  const dates = new Map<string, Dates>();
  for (let round = 0; round <= open.length; round += 1) {
    for (const errand of open) {
      const visit = lastVisit(world, errand);
      if (stateOf(world, errand) === 'left with them' && visit !== undefined) {
        const done = back(errand, visit.day);
        const today = openOn(world, world.day);
        dates.set(errand.id, { earliest: visit.day, done: latest(done, today) });
        continue;
      }
      let start: Day | undefined = openOn(world, world.day);
      for (const list of lists.get(errand.id) ?? []) {
        const days = list.flatMap((id) => dates.get(id)?.done ?? []).sort((a, b) => (a < b ? -1 : 1));
        const first = days[0];
        start = first === undefined || start === undefined ? undefined : latest(first, start);
      }
      if (start !== undefined) dates.set(errand.id, { earliest: start, done: back(errand, start) });
    }
  }
  return dates.size === open.length ? dates : 'loop';
}

/** Last start that still meets a due day, tried day by day. */
export function lastStart(world: World, errand: Errand, due: Day): Day {
  let start = due;
  while (
    openOn(world, start) !== start ||
    openOn(world, addSpan(start, errand.takes?.to ?? {}, world.practice.holidays)) > due
  ) {
    start = addDays(start, -1);
  }
  return start;
}
