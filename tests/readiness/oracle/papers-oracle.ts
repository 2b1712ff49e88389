import { addDays, addSpan, type Day, isWorkingDay, type Span } from '../../../core/vocabulary/days.ts';
import type { Edition, LotView, Paper, Visit } from '../../../core/vocabulary/lot.ts';
import type { Clock, Condition, Errand, Practice } from '../../../core/vocabulary/practice.ts';

/**
 * A second reading of the design, slow and plain: no index, no memory, no code of core/readiness.
 * It walks whole lists for every question and uses the general date library.
 */
export interface World {
  readonly practice: Practice;
  readonly lot: LotView;
  readonly day: Day;
}

export type End = Day | 'for good' | 'unknown' | 'ended';

export interface Held {
  readonly paper: Paper;
  readonly edition: Edition;
}

export function allHeld(world: World): Held[] {
  return world.lot.papers.flatMap((paper) => paper.editions.map((edition) => ({ paper, edition })));
}

export function arrived(world: World, edition: Edition): boolean {
  if (edition.received > world.day) return false;
  return edition.issued === undefined || edition.issued <= world.day;
}

/** Each office's last deciding word by the day. */
export function lastWords(world: World, edition: Edition): string[] {
  const words = new Map<string, { day: Day; word: string }>();
  for (const { office, word, day } of edition.standings) {
    if (word === 'received' || day > world.day) continue;
    const before = words.get(office);
    if (before === undefined || day >= before.day) words.set(office, { day, word });
  }
  return [...words.values()].map((last) => last.word);
}

export function accepted(world: World, edition: Edition): boolean {
  const words = lastWords(world, edition);
  return arrived(world, edition) && !words.includes('refused') && !words.includes('revoked');
}

function approved(world: World, edition: Edition, office: string): boolean {
  const mine = { ...edition, standings: edition.standings.filter((standing) => standing.office === office) };
  return lastWords(world, mine).includes('approved');
}

export function linking(world: World, edition: Edition, word: string): Held[] {
  return allHeld(world).filter(
    (held) =>
      accepted(world, held.edition) && held.edition.links.some((link) => link.word === word && link.to === edition.id),
  );
}

function ofKind(world: World, kind: string, subject: string | undefined): Held[] {
  const each = world.practice.papers[kind]?.each;
  const sort = world.lot.subjects.find((one) => one.id === subject)?.sort;
  const bySubject = each !== undefined && sort === each;
  return allHeld(world).filter(({ paper }) => paper.kind === kind && (!bySubject || paper.subject === subject));
}

function rides(world: World, held: Held): boolean {
  return held.edition.links.some((link) => {
    const target = allHeld(world).find((other) => other.edition.id === link.to);
    if (target === undefined || target.paper.kind !== held.paper.kind || !accepted(world, target.edition)) return false;
    if (link.word === 'amends' || link.word === 'extends') return true;
    return link.word === 'continues' && held.edition.effective !== undefined && held.edition.effective > world.day;
  });
}

/** The newest not refused, revoked or replaced; with an office, the newest it approved. */
export function current(world: World, kind: string, subject?: string, office?: string): Held | undefined {
  const fit = ofKind(world, kind, subject).filter((held) => {
    if (!arrived(world, held.edition) || rides(world, held)) return false;
    const replacers = linking(world, held.edition, 'replaces');
    if (office === undefined) return accepted(world, held.edition) && replacers.length === 0;
    return (
      approved(world, held.edition, office) &&
      !lastWords(world, held.edition).includes('revoked') &&
      !replacers.some((by) => approved(world, by.edition, office))
    );
  });
  let newest: Held | undefined;
  for (const held of fit) {
    const date = held.edition.issued ?? held.edition.received;
    const best = newest === undefined ? '' : (newest.edition.issued ?? newest.edition.received);
    if (date >= best) newest = held;
  }
  return newest;
}

export function truth(world: World, condition: Condition | undefined): boolean | 'unknown' {
  if (condition === undefined) return true;
  switch (condition.op) {
    case 'is': {
      const answer = world.lot.answers[condition.question];
      if (answer === undefined || answer.sort === "don't know yet") return 'unknown';
      return condition.values.some((value) => value === answer.value);
    }
    case 'over':
    case 'under': {
      const answer = world.lot.answers[condition.question];
      if (answer === undefined || answer.sort === "don't know yet" || typeof answer.value !== 'number')
        return 'unknown';
      return condition.op === 'over' ? answer.value > condition.value : answer.value < condition.value;
    }
    case 'happened':
      return world.lot.events.some((noted) => noted.event === condition.event && noted.day <= world.day);
    case 'held':
      return ofKind(world, condition.kind, undefined).some((held) => accepted(world, held.edition));
    case 'and': {
      const parts = condition.of.map((part) => truth(world, part));
      return parts.includes(false) ? false : parts.includes('unknown') ? 'unknown' : true;
    }
    case 'or': {
      const parts = condition.of.map((part) => truth(world, part));
      return parts.includes(true) ? true : parts.includes('unknown') ? 'unknown' : false;
    }
    case 'not': {
      const inner = truth(world, condition.of);
      return inner === 'unknown' ? 'unknown' : !inner;
    }
  }
}

export function eventDay(world: World, event: string): Day | undefined {
  return world.lot.events
    .filter((noted) => noted.event === event && noted.day <= world.day)
    .map((noted) => noted.day)
    .sort((a, b) => (a < b ? -1 : 1))[0];
}

function made(world: World, visit: Visit): boolean {
  return visit.day <= world.day && visit.state !== 'planned';
}

/** What a result tells of its inspection: the last entered words of it and its amendments, else the office's approval. */
export function resultSays(world: World, errand: Errand, edition: Edition): 'passed' | 'not passed' | 'silent' {
  let said = edition.facts.result?.value;
  const amendments = linking(world, edition, 'amends').sort((a, b) =>
    (a.edition.issued ?? a.edition.received) < (b.edition.issued ?? b.edition.received) ? -1 : 1,
  );
  for (const amendment of amendments) said = amendment.edition.facts.result?.value ?? said;
  const words = String(said ?? '').toLowerCase();
  if (['fail', 'not approved', 'partial', 'refused'].some((word) => words.includes(word))) return 'not passed';
  if (words.startsWith('pass') || words.startsWith('approved')) return 'passed';
  return approved(world, edition, errand.office) ? 'passed' : 'silent';
}

/** Last day on which an inspection restarted the clock. */
function restart(world: World, kind: string, since: 'inspection' | 'approved inspection'): Day | undefined {
  const days: Day[] = [];
  for (const errand of Object.values(world.practice.errands)) {
    if (!errand.restarts.includes(kind)) continue;
    for (const visit of world.lot.visits) {
      if (visit.errand !== errand.id || !made(world, visit)) continue;
      const good = ['pass', 'pass with corrections', 'partial', 'letter in lieu'].includes(visit.outcome ?? '');
      const silent = visit.outcome === undefined && visit.state === 'settled';
      const counts = good || (silent && !errand.inspection);
      const there = counts || visit.outcome === 'fail' || silent;
      if (since === 'inspection' ? there : counts) days.push(visit.day);
    }
    if (!errand.inspection) continue;
    for (const result of allHeld(world)) {
      if (!errand.yields.includes(result.paper.kind) || !accepted(world, result.edition)) continue;
      if (since === 'approved inspection' && resultSays(world, errand, result.edition) !== 'passed') continue;
      if (result.edition.issued !== undefined) days.push(result.edition.issued);
    }
  }
  return days.sort((a, b) => (a < b ? -1 : 1)).at(-1);
}

function printedEnd(world: World, held: Held): Day | undefined {
  let end = held.edition.goodThrough;
  const amendments = linking(world, held.edition, 'amends').sort((a, b) =>
    (a.edition.issued ?? a.edition.received) < (b.edition.issued ?? b.edition.received) ? -1 : 1,
  );
  for (const amendment of amendments) end = amendment.edition.goodThrough ?? end;
  return end;
}

interface Raw {
  readonly clock: Clock;
  readonly end: End;
  /** Where the clock starts, for extensions; undefined for clocks that no extension moves. */
  readonly base: Day | undefined;
}

function rawEnd(world: World, held: Held, clock: Clock, open: readonly string[]): Raw {
  const start = held.edition.effective ?? held.edition.issued;
  const after = (base: Day | undefined, span: Span): Raw => ({
    clock,
    base,
    end: base === undefined ? 'unknown' : addSpan(base, span),
  });
  switch (clock.sort) {
    case 'stated':
      return { clock, base: start ?? held.edition.received, end: printedEnd(world, held) ?? 'unknown' };
    case 'lasts':
    case 'start_by':
    case 'finish_by':
      return after(start, clock.span);
    case 'idle': {
      const last = restart(world, held.paper.kind, clock.since);
      return after(last !== undefined && (start === undefined || last > start) ? last : start, clock.span);
    }
    case 'while': {
      const other = current(world, clock.kind, held.paper.subject);
      if (other === undefined) return { clock, base: undefined, end: 'ended' };
      return { clock, base: undefined, end: validity(world, other, open).through };
    }
    case 'until': {
      const days = world.lot.events
        .filter(
          (noted) =>
            noted.event === clock.event && noted.day <= world.day && (start === undefined || noted.day >= start),
        )
        .map((noted) => noted.day)
        .sort((a, b) => (a < b ? -1 : 1));
      const first = days[0];
      if (first === undefined) return { clock, base: undefined, end: 'for good' };
      return { clock, base: undefined, end: start === undefined ? 'unknown' : addDays(first, -1) };
    }
    case 'for good':
      return { clock, base: undefined, end: 'for good' };
  }
}

function isDate(end: End): end is Day {
  return end !== 'for good' && end !== 'unknown' && end !== 'ended';
}

/** Extensions that count, with the day each was asked for; n of them move the original end by n spans at once. */
function extensions(world: World, held: Held, raws: readonly Raw[]): { asked: Day; printed: Day | undefined }[] {
  const rule = world.practice.papers[held.paper.kind]?.extension;
  const ends = raws.flatMap(({ end, base }) => (base !== undefined && isDate(end) ? [end] : []));
  const original = ends.sort((a, b) => (a < b ? -1 : 1))[0];
  const counted: { asked: Day; printed: Day | undefined }[] = [];
  let previous = held.edition.issued;
  let through = original;
  const papers = linking(world, held.edition, 'extends').sort((a, b) =>
    (a.edition.issued ?? a.edition.received) < (b.edition.issued ?? b.edition.received) ? -1 : 1,
  );
  for (const { paper, edition } of papers) {
    const granted = edition.issued ?? edition.received;
    if (linking(world, edition, 'replaces').length > 0) continue;
    if (rule === undefined && edition.goodThrough === undefined) continue;
    if (rule !== undefined) {
      if (paper.kind !== rule.by || counted.length >= rule.times) continue;
      const allowed = rule.after === undefined ? '' : (eventDay(world, rule.after) ?? '9999');
      if (allowed > granted) continue;
    }
    const visits = world.lot.visits
      .filter(
        (visit) => world.practice.errands[visit.errand]?.yields.includes(paper.kind) === true && made(world, visit),
      )
      .map((visit) => visit.day)
      .filter((day) => day <= granted && (previous === undefined || day > previous))
      .sort((a, b) => (a < b ? -1 : 1));
    const asked = visits[0] ?? granted;
    if (rule?.askedBeforeLapse === true && through !== undefined && asked > through) continue;
    counted.push({ asked, printed: edition.goodThrough });
    previous = granted;
    through = original === undefined ? edition.goodThrough : moved(world, held, original, counted);
  }
  return counted;
}

function moved(world: World, held: Held, end: Day, counted: readonly { printed: Day | undefined }[]): Day {
  const rule = world.practice.papers[held.paper.kind]?.extension;
  const printed = counted.at(-1)?.printed;
  if (printed !== undefined) return printed > end ? printed : end;
  if (rule === undefined || counted.length === 0) return end;
  const n = counted.length;
  return addSpan(end, {
    years: (rule.adds.years ?? 0) * n,
    months: (rule.adds.months ?? 0) * n,
    weeks: (rule.adds.weeks ?? 0) * n,
    days: (rule.adds.days ?? 0) * n,
  });
}

export function validity(
  world: World,
  held: Held,
  open: readonly string[] = [],
  chain: readonly string[] = [],
): { good: boolean | 'unknown'; through: End } {
  const { edition } = held;
  if (open.includes(edition.id)) return { good: true, through: 'for good' };
  const words = lastWords(world, edition);
  if (words.includes('revoked') || words.includes('closed')) return { good: false, through: 'ended' };
  const rule = world.practice.papers[held.paper.kind];
  const clocks: Clock[] = [...(rule?.clocks ?? [])];
  const printedCounts = !clocks.some((clock) => clock.sort === 'stated' || clock.sort === 'for good');
  if (printedCounts && edition.goodThrough !== undefined) clocks.push({ sort: 'stated', label: 'printed' });
  const raws = clocks.map((clock) => rawEnd(world, held, clock, [...open, edition.id]));
  const counted = extensions(world, held, raws);
  const ends = raws.flatMap(({ clock, end, base }): End[] => {
    const runs = truth(world, clock.when);
    if (runs === false) return [];
    let last = end;
    const mine = base === undefined ? [] : counted.filter((grant) => grant.asked >= base);
    if (mine.length > 0) last = isDate(end) ? moved(world, held, end, mine) : (mine.at(-1)?.printed ?? end);
    if (clock.sort === 'start_by' || clock.sort === 'finish_by') {
      const event = eventDay(world, clock.unless);
      if (event !== undefined && isDate(last) && event <= last) return ['for good'];
    }
    if (runs === 'unknown' && (last === 'ended' || (isDate(last) && last < world.day))) return ['unknown'];
    return [last];
  });
  const own = together(world, ends);
  return isDate(own.through)
    ? (carriedOn(world, held, own.through, { open: [...open, edition.id], chain: [...chain, edition.id] }) ?? own)
    : own;
}

function together(world: World, ends: readonly End[]): { good: boolean | 'unknown'; through: End } {
  if (ends.includes('ended')) return { good: false, through: 'ended' };
  const dates = ends.filter(isDate).sort((a, b) => (a < b ? -1 : 1));
  const first = dates[0];
  if (first !== undefined && first < world.day) return { good: false, through: first };
  if (ends.includes('unknown')) return { good: 'unknown', through: 'unknown' };
  return { good: true, through: first ?? 'for good' };
}

function carriedOn(
  world: World,
  held: Held,
  through: Day,
  path: { readonly open: readonly string[]; readonly chain: readonly string[] },
): { good: boolean | 'unknown'; through: End } | undefined {
  const next = linking(world, held.edition, 'continues').sort((a, b) =>
    (a.edition.issued ?? a.edition.received) < (b.edition.issued ?? b.edition.received) ? -1 : 1,
  );
  for (const period of next) {
    const start = period.edition.effective ?? period.edition.issued;
    if (start === undefined || start > addDays(through, 1) || path.chain.includes(period.edition.id)) continue;
    if (period.paper.kind !== held.paper.kind) continue;
    const later = validity(world, period, path.open, path.chain);
    if (later.through === 'for good' || (isDate(later.through) && later.through > through)) return later;
  }
  return undefined;
}

export function openOn(world: World, day: Day): Day {
  let open = day;
  while (!isWorkingDay(open, world.practice.holidays)) open = addDays(open, 1);
  return open;
}
