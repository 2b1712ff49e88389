import type { DrawFinding, DrawLeg } from '../../readiness/index.ts';

/** What a draw would be refused for, by the name of the paper: "2 invoices and a waiver missing". */

const papers: readonly (readonly [DrawLeg, string, string])[] = [
  ['invoice', 'an invoice', 'invoices'],
  ['payment', 'a payment', 'payments'],
  ['waiver', 'a lien waiver', 'lien waivers'],
  ['paper', 'a paper', 'papers'],
];

/** @returns empty where nothing would refuse it */
export function lacksInWords(findings: readonly Pick<DrawFinding, 'leg' | 'weight'>[]): string {
  const refused = Map.groupBy(
    findings.filter(({ weight }) => weight === 'refused'),
    ({ leg }) => leg,
  );
  const missing = papers.flatMap(([leg, one, many]) => {
    const count = refused.get(leg)?.length ?? 0;
    return count === 0 ? [] : [count === 1 ? one : `${count} ${many}`];
  });
  const last = missing.at(-1);
  const all = missing.length < 2 ? last : `${missing.slice(0, -1).join(', ')} and ${last}`;
  const sums = refused.get('sum')?.length ?? 0;
  return [
    ...(all === undefined ? [] : [`${all} missing`]),
    ...(sums === 0 ? [] : [sums === 1 ? 'a sum is not right' : `${sums} sums are not right`]),
  ].join('; ');
}
