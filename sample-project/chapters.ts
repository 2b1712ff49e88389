import { join } from 'node:path';
import { todayText } from '../core/cli/print/today.ts';
import type { AssembleAnswer } from '../core/desk/door.ts';
import type { Day } from '../core/vocabulary/days.ts';
import { expectTold, type ToldLot } from './told-lot.ts';

/** What each state of the invented lot is there to show, told as the program finds it and checked while it is told. */

function disagreeing(answer: AssembleAnswer, agreement: string): boolean {
  return answer.findings.some((finding) => finding.agreement === agreement);
}

function heavy(answer: AssembleAnswer): readonly string[] {
  return answer.findings
    .filter(({ weight }) => weight === 'refused' || weight === 'questioned')
    .map(({ say: what }) => what);
}

async function slip(lot: ToldLot, day: Day): Promise<void> {
  lot.say(`${todayText(await lot.ask('today', {}, { on: day }))}\n`);
}

export async function firstMonth(lot: ToldLot, day: Day, out: string): Promise<void> {
  lot.chapter('The first month on raw land', day);
  await lot.tellTo(day);
  await slip(lot, day);
  const packet = await lot.assemble('septic-apply', day, out);
  const { waiting, soon } = await lot.ask('today', {}, { on: day });
  expectTold([
    [
      'the health office has been asked for the soil evaluation',
      waiting.some(({ errand }) => errand === 'soil-evaluate'),
    ],
    ['the locate ticket lapses soon', soon.some(({ kind }) => kind === 'locate-ticket')],
    ['the septic packet is a draft', packet.draft],
  ]);
}

export async function permit(lot: ToldLot, days: { sample: Day; corrected: Day }, out: string): Promise<void> {
  const { sample, corrected } = days;
  lot.chapter('The packets as they stand', sample);
  await lot.tellTo(sample);
  const draft = await lot.assemble('permit-apply', sample, out);
  await lot.assemble('occupancy-walk', sample, out);
  await lot.assemble('insurance-convert', sample, out);
  const missing = draft.tabs.some((tab) => tab.kind === 'driveway-permit' && tab.place === 'missing');
  expectTold([
    ['the permit packet is a draft', draft.draft],
    ['the driveway permit is an out card', missing],
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
  lot.chapter('The driveway permit is in, the plans are put right', corrected);
  await lot.tellTo(corrected);
  const clean = lot.handed('Building permit application', join(out, corrected, 'permit-apply'));
  expectTold([
    ['the permit packet is clean', !clean.draft],
    [`nothing speaks against it (${heavy(clean).join(' ')})`, heavy(clean).length === 0],
  ]);
}

export async function framing(lot: ToldLot, days: { warned: Day; sample: Day }, out: string): Promise<void> {
  const { warned, sample } = days;
  lot.chapter('The week in which more time could still be asked for', warned);
  await lot.tellTo(warned);
  const slipThen = await lot.ask('today', {}, { on: warned });
  const asks = [...slipThen.amiss, ...slipThen.soon].find(({ kind }) => kind === 'septic-permit');
  lot.say(`  ${asks?.say ?? ''}\n  ${asks?.remedy.say ?? ''}\n`);
  lot.chapter('Framing was not passed', sample);
  await lot.tellTo(sample);
  await slip(lot, sample);
  const again = await lot.assemble('framing-inspect', sample, out);
  const { uncovered } = await lot.ask('trades', {}, { on: sample });
  const { amiss } = await lot.ask('today', {}, { on: sample });
  expectTold([
    ['more time for the septic permit could be asked for until 27 July', asks?.by === '2026-07-27'],
    ['the septic permit has lapsed', amiss.some(({ kind, sort }) => kind === 'septic-permit' && sort === 'lapsed')],
    ['revision C is the one that counts at the inspection', again.findings.some(({ sort }) => sort === 'not approved')],
    ['the second framer is on site without liability cover', uncovered.length === 1],
  ]);
}

export async function final(lot: ToldLot, day: Day, out: string): Promise<void> {
  lot.chapter('Ten months on, the week of the final', day);
  await lot.tellTo(day);
  await slip(lot, day);
  await lot.assemble('occupancy-walk', day, out);
  await lot.assemble('insurance-convert', day, out);
  const last = await lot.assemble('loan-convert', day, out);
  const check = await lot.ask('draw-check', { draw: '7' }, { on: day });
  expectTold([
    ['the last draw lacks the certificate', last.tabs.some(({ place }) => place === 'missing')],
    ['the lender would not pay it yet', check.wouldBeRefused],
  ]);
}
