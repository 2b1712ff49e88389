import { type RefObject, useEffect, useRef } from 'react';
import type { PlanTab } from '../../../core/packet/plan-model.ts';
import type { NeedRow } from './errand-model.ts';
import { useErrandView } from './errand-store.ts';
import type { Leaf } from './leaves.ts';

interface LeadersProps {
  readonly within: RefObject<HTMLDivElement | null>;
  readonly tabs: ReadonlyMap<NeedRow, PlanTab>;
  readonly leaves: readonly Leaf[];
}

const middle = (box: DOMRect): number => box.top + box.height / 2;

/** The leader lines from each need across the gutter to its tab, for the lines in view. */
function draw(svg: SVGSVGElement, spread: HTMLElement): void {
  const own = svg.getBoundingClientRect();
  const [top, bottom] = [56, window.innerHeight];
  for (const path of svg.querySelectorAll('path')) {
    const { tab } = path.dataset;
    const from = spread.querySelector(`[data-errand-line="${tab}"]`)?.getBoundingClientRect();
    const to = spread.querySelector(`[data-errand-tab="${tab}"]`)?.getBoundingClientRect();
    const y = from === undefined ? -1 : middle(from);
    if (from === undefined || to === undefined || own.width === 0 || y < top || y > bottom) {
      path.setAttribute('d', '');
      continue;
    }
    const [y1, y2] = [y - own.top, middle(to) - own.top];
    const [x1, x2] = [from.right - own.left, to.left - own.left];
    const run = Math.max(x1 + 6, Math.min(x2 - 6, own.width - 10));
    path.setAttribute('d', `M${x1} ${y1}H${Math.max(x1, 6)}L${run} ${y2}H${x2}`);
  }
}

/** Joins the left page to the stack: one line per need, drawn as leader lines are on a plat. */
export function Leaders({ within, tabs, leaves }: LeadersProps) {
  const svg = useRef<SVGSVGElement>(null);
  const at = useErrandView((state) => state.at);
  const current = leaves[at]?.tab;
  useEffect(() => {
    const [element, spread] = [svg.current, within.current];
    if (element === null || spread === null) return;
    let frame = 0;
    const again = (): void => {
      cancelAnimationFrame(frame);
      frame = requestAnimationFrame(() => draw(element, spread));
    };
    again();
    const watch = new ResizeObserver(again);
    watch.observe(spread);
    for (const page of spread.children) watch.observe(page);
    window.addEventListener('scroll', again, { passive: true });
    return () => {
      cancelAnimationFrame(frame);
      watch.disconnect();
      window.removeEventListener('scroll', again);
    };
  });
  return (
    <div className="errand-gutter">
      <svg ref={svg} aria-hidden="true">
        {[...tabs.values()].map(({ tab, findings }) => {
          const weight = (findings[0]?.weight ?? 'none').replaceAll(' ', '-');
          return <path key={tab} data-tab={tab} className={`${weight}${tab === current ? ' on' : ''}`} />;
        })}
      </svg>
    </div>
  );
}
