import { describe, expect, it } from 'vitest';
import { planPacket } from '../../core/packet/plan/index.ts';
import type { PacketPlan } from '../../core/packet/plan-model.ts';
import { readErrand } from '../../core/readiness/index.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import { content, evenMetrics } from '../packet/plan-fixture.ts';
import { lotOn } from './lot-of-story.ts';

/** The packet of an errand as it is laid out that day, each paper of one page. */
function packetOn(errand: string, day: Day): PacketPlan {
  const { lot, practice } = lotOn(day);
  const before = { ...lot, visits: lot.visits.filter((visit) => visit.errand !== errand) };
  const reading = readErrand(errand, { practice, lot: before, day });
  const contents = Object.fromEntries(
    lot.papers.flatMap(({ editions }) =>
      editions.map(({ id, physicalOnly }) => [id, content(id, { edition: { physicalOnly } })]),
    ),
  );
  return planPacket({ lot, practice, day, purpose: { of: 'errand', reading }, contents }, evenMetrics);
}

describe('The packets of the invented lot', () => {
  it.each(['2026-04-14', '2026-04-16'] as const)(
    'hold on %s, with the septic permit, the extension without which it would have lapsed',
    (day) => {
      const plan = packetOn('permit-apply', day);
      const tab = plan.tabs.find(({ kind }) => kind === 'septic-permit');
      expect(tab).toMatchObject({ edition: 'septic', riders: ['septic-more-time'], place: 'inside', pages: 2 });
      expect(tab?.title).toMatch(/, with its extension$/);
      const sheets = plan.files.flatMap((file) =>
        file.of === 'assembled' && file.sort === 'packet' ? file.sheets : [],
      );
      const editions = sheets.flatMap((sheet) =>
        sheet.of === 'paper' && sheet.tab === tab?.tab ? [sheet.edition] : [],
      );
      expect(editions).toEqual(['septic', 'septic-more-time']);
      const without = packetOn('permit-apply', '2026-04-05').tabs.find(({ kind }) => kind === 'septic-permit');
      expect(without).toMatchObject({ edition: 'septic', pages: 1 });
    },
  );
});
