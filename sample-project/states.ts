import { LotfileError, type SampleName, sampleNames } from '../core/desk/door.ts';
import type { Day } from '../core/vocabulary/days.ts';
import { readBranch, readStory, type Story } from './story-model.ts';

/** How far the invented lot is along its way; each state is a lot of its own. */
export const stateNames = sampleNames;
export type StateName = SampleName;

export interface SampleState {
  readonly name: StateName;
  readonly title: string;
  readonly story: Story;
  /** The day it stands at. */
  readonly day: Day;
  /** Told with the main story as far as this day, and its own way from then on; none where it shares nothing. */
  readonly shares: Day | undefined;
}

const titles: Readonly<Record<StateName, string>> = {
  'first-month': 'The first month on raw land',
  permit: 'Days before the building permit',
  framing: 'Framing, after an inspection that was not passed',
  final: 'The week of the final',
};

function dayIn(story: Story, name: string): Day {
  const day = story.days[name];
  if (day === undefined) throw new LotfileError('internal', `The sample’s story names no day "${name}" to stand at.`);
  return day;
}

/** The story that leads to a state, and the day it stands at. */
export function sampleState(name: StateName): SampleState {
  const title = titles[name];
  if (name === 'permit' || name === 'final') {
    const story = readStory();
    const day = dayIn(story, name === 'permit' ? 'sample' : 'walkthrough');
    return { name, title, story, day, shares: day };
  }
  const { story, leaves } = readBranch(`${name}.yaml`);
  return { name, title, story, day: dayIn(story, 'sample'), shares: leaves };
}

export function isStateName(text: string): text is StateName {
  return stateNames.some((name) => name === text);
}
