import type { FontMetrics } from '../../typeset/drawing.ts';
import type { Day } from '../../vocabulary/days.ts';
import type { Finding } from '../../vocabulary/finding.ts';
import type { Delivery, Errand, Office } from '../../vocabulary/practice.ts';
import type { PacketOrder } from '../plan-model.ts';
import type { FileNames } from './names.ts';
import type { Row } from './row.ts';

/** What every step of planning needs to know; notes and replaced characters are gathered on the way. */
export interface PlanFrame {
  readonly order: PacketOrder;
  readonly metrics: FontMetrics;
  readonly code: string;
  readonly title: string;
  readonly recipient: string;
  readonly errand: Errand | undefined;
  readonly office: Office | undefined;
  readonly delivery: Delivery;
  readonly rows: readonly Row[];
  readonly findings: readonly Finding[];
  readonly draft: boolean;
  /** What this making of the errand is for, "Draw 3". */
  readonly subject: string | undefined;
  /** First day the errand can be gone on, where that is later than the day of the packet. */
  readonly firstDay: Day | undefined;
  readonly names: FileNames;
  /** "heron-lane-permit-apply-2026-04-14": what the names of our own files begin with. */
  readonly stem: string;
  readonly notes: string[];
  readonly replaced: Set<string>;
}
