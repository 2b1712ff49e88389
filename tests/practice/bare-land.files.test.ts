import { describe, expect, it } from 'vitest';
import { readPractice } from '../../core/practice/index.ts';
import type { Condition, Errand, Need } from '../../core/vocabulary/practice.ts';
import { commonLayers } from './common-layers.ts';

const practice = readPractice(commonLayers);
const every: readonly Errand[] = [...Object.values(practice.errands), ...Object.values(practice.offered ?? {})];
const onPaper: ReadonlySet<Errand['stretch']> = new Set(['the land', 'before the permit']);
const later = every.filter(({ stretch }) => !onPaper.has(stretch));

/** Says nothing of the ground: it comes with the papers. */
const paperEvents: ReadonlySet<string> = new Set(['loan-recorded']);

function hangsOnEvent(when: Condition | undefined): boolean {
  if (when === undefined) return false;
  if (when.op === 'and') return when.of.some(hangsOnEvent);
  return when.op === 'happened';
}

function comesWithBuilding({ kinds, when, optional }: Need): boolean {
  if (when !== undefined || optional) return false;
  return kinds.every((kind) => {
    const yielders = every.filter(({ yields }) => yields.includes(kind));
    return yielders.length > 0 && yielders.every(({ stretch }) => !onPaper.has(stretch));
  });
}

/** It waits for something that is only there once somebody has built: an event, an errand, the paper of one. */
function waitsForBuilding({ when, needs, before }: Errand): boolean {
  const comesAfter = before.some(({ after, when: asked }) => {
    if (asked !== undefined) return false;
    if ('event' in after) return !paperEvents.has(after.event);
    return later.some(({ id }) => id === after.errand);
  });
  return hangsOnEvent(when) || comesAfter || needs.some(comesWithBuilding);
}

/** Work begins with the card in hand: these are what is done first. */
function waitsForCard({ needs, before }: Errand): boolean {
  const card = needs.some(({ kinds, optional }) => !optional && kinds.includes('permit-card'));
  return card || before.some(({ after }) => 'errand' in after && after.errand === 'permit-pick-up');
}

describe('on bare land, with every paper of the desks in hand', () => {
  it('no errand of the finished house is told as next: each waits for something that was built', () => {
    const early = later.filter(({ stretch }) => stretch !== 'building').filter((one) => !waitsForBuilding(one));
    expect(early.map(({ id }) => id)).toEqual([]);
  });

  it('no errand of building is told as next before the permit card is there, save what makes the thing itself', () => {
    const building = later.filter(({ stretch }) => stretch === 'building');
    const early = building.filter((one) => !waitsForBuilding(one) && !waitsForCard(one) && one.causes.length === 0);
    expect(early.map(({ id }) => id)).toEqual([]);
  });
});
