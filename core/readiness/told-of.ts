import type { ErrandReading, Finding } from '../vocabulary/finding.ts';

function lapsedOnly(findings: readonly Finding[]): readonly Finding[] {
  return findings.filter(({ sort }) => sort === 'lapsed');
}

/**
 * What is told of an errand where it is looked at: nobody goes again on what is settled, so of that only what has
 * lapsed since. Whatever is assembled for it all the same is held against the whole reading.
 */
export function toldOf(reading: ErrandReading): ErrandReading {
  if (reading.state !== 'settled') return reading;
  const needs = reading.needs.map((need) => ({ ...need, findings: lapsedOnly(need.findings) }));
  return { ...reading, needs, findings: lapsedOnly(reading.findings) };
}
