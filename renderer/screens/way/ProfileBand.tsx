import type { PlacedLife, SheetPlan } from './sheet-plan.ts';

const height = 15;
const ear = 6;

/** A strip with its corner turned down where it ends; torn where it began before the sheet, open where it runs on. */
function outline({ from, to, y, torn, open }: PlacedLife): string {
  const start = torn ? `M${from} ${y}l3 4-3 4 3 4-3 3` : `M${from} ${y}v${height}`;
  const foot = `L${to} ${y + height}`;
  const finish = open ? `M${to} ${y}` : `V${y + ear}L${to - ear} ${y}`;
  return `${start}${foot}${finish}L${from} ${y}`;
}

/** What is left of a life is hatched; what is lived is blank. */
function left({ from, to, y, open }: PlacedLife, today: number): string {
  const start = Math.max(from, today);
  if (start >= to) return '';
  if (open || to - start < ear) return `M${start} ${y}H${to}v${height}H${start}z`;
  return `M${start} ${y}H${to - ear}L${to} ${y + ear}V${y + height}H${start}z`;
}

function Strip({ placed, today }: { readonly placed: PlacedLife; readonly today: number }) {
  const { life, to, y, gapTo, open, ticks, ears } = placed;
  const sort = life.lateFor.length > 0 ? 'late' : life.expected ? 'expected' : life.state;
  return (
    <g className={`way-life ${sort}`}>
      {life.expected ? null : <path className="way-fill" d={left(placed, today)} />}
      <path className="way-outline" d={outline(placed)} />
      {open ? null : <path className="way-outline" d={`M${to - ear} ${y}v${ear}h${ear}`} />}
      <path
        className="way-outline"
        d={ears.map((x) => `M${x - ear} ${y}v${ear}h${ear}zM${x} ${y + ear}v${height - ear}`).join('')}
      />
      {gapTo === undefined ? null : <path className="way-gap" d={`M${to} ${y}H${gapTo}v${height}H${to}z`} />}
      <path className="way-needed" d={ticks.map((x) => `M${x} ${y + height - 4}v7`).join('')} />
    </g>
  );
}

function Ruling({ plan }: { readonly plan: SheetPlan }) {
  const { profile, weeks, months, end } = plan;
  const lines = Math.floor((profile.bottom - profile.top) / 12);
  const across = Array.from({ length: lines + 1 }, (_, index) => `M8 ${profile.top + index * 12}H${end + 12}`).join('');
  const close = (weeks[1] ?? 0) - (weeks[0] ?? 0) < 12;
  return (
    <g>
      <path className="way-ruling" d={across} />
      {close ? null : (
        <path className="way-ruling" d={weeks.map((x) => `M${x} ${profile.top}V${profile.bottom}`).join('')} />
      )}
      <path className="way-ruling month" d={months.map(({ x }) => `M${x} ${profile.top}V${profile.bottom}`).join('')} />
      <path className="way-edge" d={`M8 ${profile.top}H${end + 12}V${profile.bottom}H8z`} />
      {months.map(({ x, words }) => (
        <text key={x} className="way-month" x={x + 4} y={profile.bottom + 15}>
          {words}
        </text>
      ))}
    </g>
  );
}

/** The poles of today, as it stands and target; their words stand over everything (SheetWords). */
function Poles({ plan }: { readonly plan: SheetPlan }) {
  const { flags, baseline, profile } = plan;
  return flags.map(({ sort, x }) => (
    <path key={sort} className={`way-flag ${sort}`} d={`M${x} ${baseline - 20}V${profile.bottom}`} />
  ));
}

/** The profile: the lives of the papers on ruled paper, today's line, and what the way runs to. */
export function ProfileBand({ plan }: { readonly plan: SheetPlan }) {
  return (
    <g>
      <Ruling plan={plan} />
      {plan.lives.map((placed) => (
        <Strip key={placed.life.key} placed={placed} today={plan.today} />
      ))}
      {plan.lives.length > 0 ? null : (
        <text className="way-month" x={plan.today + 14} y={plan.profile.top + 38}>
          The lives of your papers are drawn here, from issue to last good day, once they are kept.
        </text>
      )}
      <Poles plan={plan} />
    </g>
  );
}
