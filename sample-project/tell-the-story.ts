import { cpSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { basename, join, relative, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { assembledText } from '../core/cli/print/packet.ts';
import { openDesk } from '../core/desk/desk.ts';
import { type AssembleAnswer, dayWithWeekday, LotfileError } from '../core/desk/door.ts';
import type { Day } from '../core/vocabulary/days.ts';
import { readStory } from './story-model.ts';
import { Timeline } from './timeline.ts';

/**
 * `npm run sample`: makes the invented lot in out/, keeps its papers day by day, and assembles its packets: as they
 * stand on the sample's day, the permit packet once it is put right, and the last two in the week of the walkthrough.
 * Ends with 0 when the story ran as told.
 */
const here = fileURLToPath(new URL('.', import.meta.url));
const out = resolve(process.argv[2] ?? join(here, '..', 'out'));

function say(text: string): void {
  process.stdout.write(`${text}\n`);
}

function chapter(title: string, day: Day): void {
  const line = `${title}: ${dayWithWeekday(day)}`;
  say(`\n${line}\n${'='.repeat(line.length)}\n`);
}

interface Teller {
  readonly desk: ReturnType<typeof openDesk>;
  readonly lot: string;
}

async function assemble({ desk, lot }: Teller, errand: string, day: Day): Promise<AssembleAnswer> {
  const answer = await desk.ask('assemble', { errand }, { lot, on: day });
  const folder = join(out, day, errand);
  mkdirSync(folder, { recursive: true });
  for (const { ticket, name } of answer.files) cpSync(desk.tickets.look(ticket).path, join(folder, name));
  say(`${assembledText(answer)}\n\nThe files are in ${relative(process.cwd(), folder)}.\n`);
  return answer;
}

/** The story is told by the program, so what it must find is checked: a silent change of mind ends with 1. */
function expectStory(told: readonly (readonly [string, boolean])[]): void {
  const broken = told.filter(([, holds]) => !holds).map(([what]) => what);
  if (broken.length === 0) return;
  throw new LotfileError('internal', `The story did not run as told: ${broken.join('; ')}.`, {
    next: 'Something in the practice, the papers or the program changed; run npm test.',
  });
}

function disagreeing(answer: AssembleAnswer, agreement: string): boolean {
  return answer.findings.some((finding) => finding.agreement === agreement);
}

function heavy(answer: AssembleAnswer): readonly string[] {
  return answer.findings
    .filter(({ weight }) => weight === 'refused' || weight === 'questioned')
    .map(({ say: what }) => what);
}

async function tell(): Promise<void> {
  const story = readStory();
  rmSync(out, { recursive: true, force: true });
  mkdirSync(out, { recursive: true });
  const { sample, corrected, walkthrough } = story.days;
  if (sample === undefined || corrected === undefined || walkthrough === undefined) throw new Error('days are missing');
  await using desk = openDesk({ program: 'the sample', today: () => sample });
  const practice = join(here, 'practice');
  const layers = readdirSync(practice).map((name) => ({
    name: basename(name),
    text: readFileSync(join(practice, name), 'utf8'),
  }));
  const folder = desk.tickets.offer(join(out, 'heron-lane'));
  const { title, target } = story;
  const { lot } = await desk.ask('new-lot', { folder, title, target, layers });
  const teller = { desk, lot };
  const timeline = new Timeline(desk, lot, story);
  await timeline.begin();

  chapter('The packets as they stand', sample);
  await timeline.tellTo(sample);
  const draft = await assemble(teller, 'permit-apply', sample);
  await assemble(teller, 'occupancy-walk', sample);
  await assemble(teller, 'insurance-convert', sample);
  expectStory([
    ['the permit packet is a draft', draft.draft],
    [
      'the driveway permit is an out card',
      draft.tabs.some((tab) => tab.kind === 'driveway-permit' && tab.place === 'missing'),
    ],
    ['the bedrooms disagree', disagreeing(draft, 'bedrooms')],
    [
      'the binder is about to lapse',
      draft.findings.some(({ kind, sort }) => kind === 'builders-risk-binder' && sort === 'lapsing'),
    ],
    ['the signed letter travels beside, untouched', draft.files.some(({ sort }) => sort === 'sealed')],
    [
      'three sets of plans, on the clerk’s word',
      draft.tabs.some(({ kind, copies }) => kind === 'plans' && copies === 3),
    ],
    ['the truss sheets are stale', draft.findings.some((finding) => finding.kind === 'truss-sheets')],
    ['the address is one place in two spellings', !disagreeing(draft, 'address')],
  ]);

  chapter('The driveway permit is in, the plans are put right', corrected);
  await timeline.tellTo(corrected);
  const clean = await assemble(teller, 'permit-apply', corrected);
  expectStory([
    ['the permit packet is clean', !clean.draft],
    [`nothing speaks against it (${heavy(clean).join(' ')})`, heavy(clean).length === 0],
  ]);

  chapter('Ten months on, the week of the walkthrough', walkthrough);
  await timeline.tellTo(walkthrough);
  await assemble(teller, 'occupancy-walk', walkthrough);
  await assemble(teller, 'insurance-convert', walkthrough);
  const { problems, files } = await desk.ask('verify', {}, teller);
  expectStory([['every kept byte is as it was kept', problems.length === 0]]);
  say(`${files} files of the lot verified. The lot is in ${relative(process.cwd(), join(out, 'heron-lane'))}.`);
  say('Your county and licensed people decide; Lotfile only shows what is in your papers.');
}

try {
  await tell();
} catch (thrown) {
  const error = LotfileError.from(thrown);
  process.stderr.write(`${error.message}\n${error.next ?? ''}\n`);
  process.exitCode = 1;
}
