import type { EditionContent, PacketOrder, Trip } from '../../core/packet/plan-model.ts';
import type { FontMetrics } from '../../core/typeset/drawing.ts';
import type { Day } from '../../core/vocabulary/days.ts';
import type { Finding, NeedReading, WithThem } from '../../core/vocabulary/finding.ts';
import type { Edition, EditionPage, LotView, Paper } from '../../core/vocabulary/lot.ts';
import type {
  Delivery,
  Errand,
  Need,
  Office,
  OfficeSort,
  PaperKind,
  Practice,
} from '../../core/vocabulary/practice.ts';
import { bareDelivery, bareKind, bareNeed, common } from '../practice/bare-rules.ts';

/** An invented lot and practice, made by hand so that the plan is tested without other rooms. */

/** Half the size per character: wide enough to force wrapping, simple enough to reckon by hand. */
export const evenMetrics: FontMetrics = {
  widthOf: (text, _face, size) => [...text].length * size * 0.5,
  missing: (text) => [...new Set([...text].filter((character) => character === '漢'))],
};

export const delivery: Delivery = { ...bareDelivery, sets: 2 };

export function office(id: string, title: string, sort: OfficeSort, more: Partial<Office> = {}): Office {
  return { id, title, sort, exists: true, basis: common, ...more };
}

export function kind(id: string, title: string, from: string, more: Partial<PaperKind> = {}): PaperKind {
  return {
    id,
    title,
    from,
    ...bareKind,
    ...more,
  };
}

export function need(id: string, more: Partial<Need> = {}): Need {
  return {
    id,
    kinds: [id],
    ...bareNeed,
    ...more,
  };
}

export function errandOf(needs: readonly Need[], more: Partial<Errand> = {}): Errand {
  return {
    id: 'permit-apply',
    title: 'Apply for the building permit',
    office: 'plan-review',
    stretch: 'permit',
    inspection: false,
    restarts: [],
    bring: [],
    ask: [],
    needs,
    before: [],
    yields: [],
    causes: [],
    deliver: delivery,
    basis: common,
    ...more,
  };
}

export interface PaperShape {
  readonly pages?: number;
  readonly edition?: Partial<Edition>;
  readonly page?: Partial<EditionPage['facts']>;
  readonly title?: string;
  readonly bytes?: number;
}

/** A paper of `kind` with one edition "<kind>-e". */
export function paper(kindId: string, shape: PaperShape = {}): Paper {
  const edition: Edition = {
    id: `${kindId}-e`,
    paper: `${kindId}-p`,
    received: '2026-03-01',
    facts: {},
    marks: [],
    standings: [],
    links: [],
    physicalOnly: false,
    sealed: false,
    readable: true,
    pages: shape.pages ?? 1,
    sheets: ['letter'],
    ...shape.edition,
  };
  return { id: `${kindId}-p`, kind: kindId, title: shape.title ?? kindId, editions: [edition] };
}

const bottomStrip = { x: 36, y: 18, width: 540, height: 14 };

export function content(kindId: string, shape: PaperShape = {}): EditionContent {
  const count = shape.edition?.physicalOnly === true ? 0 : (shape.pages ?? 1);
  return {
    pages: Array.from({ length: count }, (_, page) => ({
      rendition: `rendition-${kindId}`,
      turn: 0 as const,
      facts: {
        page,
        width: 612,
        height: 792,
        clearStrips: [bottomStrip],
        openSaves: 0,
        extraRestores: 0,
        bytes: shape.bytes ?? 20_000,
        text: '',
        ...shape.page,
      },
    })),
    originals: [{ sha256: kindId.padEnd(64, '0').slice(0, 64), name: `${kindId}.pdf`, bytes: shape.bytes ?? 20_000 }],
    notes: [],
  };
}

export const missingFinding = (kindId: string, more: Partial<Finding> = {}): Finding => ({
  weight: 'refused',
  sort: 'missing',
  need: kindId,
  kind: kindId,
  say: `The ${kindId} is not in hand.`,
  why: 'They turn the packet away without it.',
  basis: { on: 'the office told us', who: 'R. Amsel, permit desk', day: '2026-04-02' },
  remedy: { say: `Get the ${kindId}.`, earliest: '2026-05-04' },
  final: false,
  ...more,
});

export interface OrderShape {
  /** In packet order; a kind without a shape is missing. */
  readonly papers: Readonly<Record<string, PaperShape | 'missing'>>;
  readonly needs?: readonly Need[];
  readonly kinds?: Readonly<Record<string, Partial<PaperKind>>>;
  readonly errand?: Partial<Errand>;
  readonly offices?: readonly Office[];
  readonly findings?: readonly Finding[];
  readonly readings?: (reading: NeedReading) => NeedReading;
  readonly override?: PacketOrder['override'];
  readonly lot?: Partial<LotView>;
  readonly trip?: Trip;
  readonly firstDay?: Day;
  readonly withThem?: WithThem;
}

/** A packet order for one errand with one need per paper. */
export function orderOf(shape: OrderShape): PacketOrder {
  const ids = Object.keys(shape.papers);
  const held = ids.flatMap((id) => {
    const one = shape.papers[id];
    return one === undefined || one === 'missing' ? [] : [[id, one] as const];
  });
  const needs = shape.needs ?? ids.map((id) => need(id));
  const offices = shape.offices ?? [
    office('plan-review', 'Plan Review', 'building'),
    office('environmental-health', 'Environmental Health', 'health'),
  ];
  const practice: Practice = {
    title: 'Test practice',
    layers: [],
    offices: Object.fromEntries(offices.map((one) => [one.id, one])),
    questions: {},
    events: {},
    papers: Object.fromEntries(
      ids.map((id) => [id, kind(id, id, shape.kinds?.[id]?.from ?? 'environmental-health', shape.kinds?.[id])]),
    ),
    errands: { 'permit-apply': errandOf(needs, shape.errand) },
    agreements: {},
    duties: {},
    holds: {},
    holidays: [],
  };
  const readings = needs.map((one): NeedReading => {
    const id = one.kinds[0] ?? one.id;
    const shaped = shape.papers[id];
    const has = shaped !== undefined && shaped !== 'missing';
    const reading: NeedReading = {
      need: one.id,
      applies: true,
      kind: id,
      state: has ? 'in hand' : 'not asked for',
      findings: has || one.optional ? [] : [missingFinding(id)],
      ...(has ? { paper: `${id}-p`, edition: shaped.edition?.id ?? `${id}-e` } : {}),
    };
    return shape.readings === undefined ? reading : shape.readings(reading);
  });
  const findings = shape.findings ?? readings.flatMap((reading) => reading.findings);
  const lot: LotView = {
    title: 'Heron Lane',
    answers: {},
    identities: [
      { sort: 'owner', text: 'Hạnh Nguyễn Lindqvist' },
      { sort: 'owner', text: 'Tomás Lindqvist' },
      { sort: 'place', text: 'Lot 7, Heron Lane', to: '2026-02-28' },
      { sort: 'place', text: '418 Heron Lane', from: '2026-03-01' },
      { sort: 'parcel', text: '041-22-0070' },
    ],
    sameAs: [],
    subjects: [],
    events: [],
    papers: held.map(([id, one]) => paper(id, one)),
    visits: [],
    ...shape.lot,
  };
  return {
    lot,
    practice,
    day: '2026-04-14',
    purpose: {
      of: 'errand',
      reading: {
        errand: 'permit-apply',
        day: '2026-04-14',
        state: shape.withThem === undefined ? 'can go' : 'left with them',
        needs: readings,
        findings,
        firstDay: shape.firstDay,
        withThem: shape.withThem,
      },
      trip: shape.trip,
    },
    contents: Object.fromEntries(held.map(([id, one]) => [one.edition?.id ?? `${id}-e`, content(id, one)])),
    override: shape.override,
  };
}
