import { mkdirSync, rmSync } from 'node:fs';
import { join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type Desk, openDesk } from '../core/desk/desk.ts';
import { LotfileError } from '../core/desk/door.ts';
import type { Day } from '../core/vocabulary/days.ts';
import { final, firstMonth, framing, permit } from './chapters.ts';
import { isStateName, type StateName, sampleState, stateNames } from './states.ts';
import type { Story } from './story-model.ts';
import { expectTold, ToldLot } from './told-lot.ts';

/**
 * `npm run sample`: makes the invented lot in out/, keeps its papers day by day, and assembles its packets, in each of
 * its states: the first month, the days before the permit, framing that was not passed, the week of the final.
 * `npm run sample -- framing` tells that state alone. Ends with 0 when the story ran as told.
 */
const { values, positionals } = parseArgs({ allowPositionals: true, options: { out: { type: 'string' } } });
const out = resolve(values.out ?? fileURLToPath(new URL('../out', import.meta.url)));

function wantedStates(): ReadonlySet<StateName> {
  const unknown = positionals.find((name) => !isStateName(name));
  if (unknown !== undefined) {
    throw new LotfileError('wrong use', `The sample has no state "${unknown}".`, {
      next: `Name one or more of: ${stateNames.join(', ')}; or none for all of them.`,
    });
  }
  return new Set(positionals.length === 0 ? stateNames : positionals.filter(isStateName));
}

function dayOf(story: Story, name: string): Day {
  const day = story.days[name];
  if (day === undefined) throw new LotfileError('internal', `The story names no day "${name}".`);
  return day;
}

/** Each lot has a desk of its own, so that two are told side by side. */
function deskFor(desks: Desk[]): Desk {
  const desk = openDesk({ program: 'the sample', today: () => sampleState('permit').day });
  desks.push(desk);
  return desk;
}

async function tellFirstMonth(desk: Desk): Promise<ToldLot> {
  const { story, day } = sampleState('first-month');
  const folder = join(out, 'first-month');
  const lot = await ToldLot.begin(desk, join(folder, 'heron-lane'), story);
  await firstMonth(lot, day, folder);
  return lot;
}

async function tellFraming(lot: ToldLot, story: Story): Promise<void> {
  await framing(lot, { warned: dayOf(story, 'warned'), sample: dayOf(story, 'sample') }, join(out, 'framing'));
}

/** The main story, and the branch that leaves it in the middle. */
async function tellMain(wanted: ReadonlySet<StateName>, desks: Desk[]): Promise<readonly ToldLot[]> {
  const { story } = sampleState('permit');
  const branch = sampleState('framing');
  const days = { sample: dayOf(story, 'sample'), corrected: dayOf(story, 'corrected') };
  const lot = await ToldLot.begin(deskFor(desks), join(out, 'heron-lane'), story);
  if (wanted.has('permit')) await permit(lot, days, out);
  const told: ToldLot[] = [lot];
  const work: Promise<void>[] = [];
  if (wanted.has('framing') && branch.shares !== undefined) {
    await lot.tellTo(branch.shares);
    const other = await lot.fork(deskFor(desks), join(out, 'framing', 'heron-lane'), branch.story);
    told.push(other);
    work.push(tellFraming(other, branch.story));
  }
  if (wanted.has('final')) work.push(final(lot, sampleState('final').day, out));
  await Promise.all(work);
  return told;
}

async function verified(lot: ToldLot): Promise<string> {
  const { problems, files } = await lot.ask('verify', {});
  expectTold([['every kept byte is as it was kept', problems.length === 0]]);
  return `${files} files of the lot verified. The lot is in ${relative(process.cwd(), lot.folder)}.`;
}

async function tell(desks: Desk[]): Promise<void> {
  const wanted = wantedStates();
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  const first = wanted.has('first-month') ? tellFirstMonth(deskFor(desks)) : undefined;
  const rest = [...wanted].some((name) => name !== 'first-month') ? await tellMain(wanted, desks) : [];
  const lots = [...(first === undefined ? [] : [await first]), ...rest];
  for (const lot of lots) process.stdout.write(`${lot.text()}\n${await verified(lot)}\n`);
  process.stdout.write('Your county and licensed people decide; Lotfile only shows what is in your papers.\n');
}

const desks: Desk[] = [];
try {
  await tell(desks);
} catch (thrown) {
  const error = LotfileError.from(thrown);
  process.stderr.write(`${error.message}\n${error.next ?? ''}\n`);
  process.exitCode = error.code === 'wrong use' ? 2 : 1;
} finally {
  for (const desk of desks) await desk.close();
}
