import type { SheetPlan } from './sheet-plan.ts';

/** While a station is looked at: lines to what it waits for, and its papers marked. */
export function Waits({ plan, focused }: { readonly plan: SheetPlan; readonly focused: string | undefined }) {
  const here = plan.stations.find(({ station }) => station.key === focused);
  if (here === undefined) return null;
  const y = plan.numbers + 12;
  const before = plan.stations.filter(({ station }) => here.station.waitsFor.includes(station.key));
  const papers = plan.lives.filter(({ life }) => life.needed.some(({ key }) => key === focused));
  return (
    <g className="way-waits">
      {before.map(({ station, x }) => {
        const deep = y + Math.min(34, 12 + Math.abs(here.x - x) / 8);
        return <path key={station.key} d={`M${here.x} ${y}C${here.x} ${deep} ${x} ${deep} ${x} ${y}`} />;
      })}
      {before.map(({ station, x }) => (
        <circle key={station.key} cx={x} cy={plan.numbers} r="14" />
      ))}
      <path d={`M${here.foot} ${plan.baseline - 7}V${plan.profile.bottom}`} className="way-drop" />
      {papers.map(({ life, from, to, y: top }) => (
        <path key={life.key} className="way-held" d={`M${from} ${top + 17}H${to}`} />
      ))}
    </g>
  );
}
