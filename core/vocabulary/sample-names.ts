/** How far the sample lot is along its way; each state is a lot of its own. */
export const sampleNames = ['first-month', 'permit', 'framing', 'final'] as const;
export type SampleName = (typeof sampleNames)[number];
