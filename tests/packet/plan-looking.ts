import { planPacket } from '../../core/packet/plan/index.ts';
import type { PacketPlan, PlanFile, PlanSheet } from '../../core/packet/plan-model.ts';
import { wordsOf } from '../typeset/written.ts';
import { evenMetrics, type OrderShape, orderOf } from './plan-fixture.ts';

/** A plan, and what can be seen in it. */

export const planOf = (shape: OrderShape): PacketPlan => planPacket(orderOf(shape), evenMetrics);

export type Assembled = Extract<PlanFile, { of: 'assembled' }>;
export const assembled = (plan: PacketPlan, sort: Assembled['sort']): readonly Assembled[] =>
  plan.files.flatMap((file) => (file.of === 'assembled' && file.sort === sort ? [file] : []));
export const packetOf = (plan: PacketPlan): Assembled => {
  const [file] = assembled(plan, 'packet');
  if (file === undefined) throw new Error('no packet file');
  return file;
};
export const sortsOf = (file: Assembled): readonly string[] =>
  file.sheets.map((sheet) => (sheet.of === 'written' ? sheet.sort : `${sheet.title} ${sheet.page.facts.page + 1}`));
export const stampTexts = (sheets: readonly PlanSheet[]): readonly string[] =>
  sheets.flatMap((sheet) =>
    sheet.of === 'paper' ? ['text' in sheet.stamp ? sheet.stamp.text : sheet.stamp.none] : [],
  );
export const writtenWords = (file: Assembled): string =>
  file.sheets.map((sheet) => (sheet.of === 'written' ? wordsOf(sheet.drawing) : '')).join(' ');

export const two = { papers: { deed: { pages: 2 }, 'septic-permit': { pages: 3 } } } as const;
