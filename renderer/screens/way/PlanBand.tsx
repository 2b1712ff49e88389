import { slantedWords } from './measures.ts';
import type { PlacedGate, PlacedStation, SheetPlan } from './sheet-plan.ts';
import { shapeOf, wordOf } from './words.ts';

/** From a number down to its true place: straight, across, straight. */
function leader(x: number, foot: number, { numbers, baseline }: SheetPlan): string {
  return `M${x} ${numbers + 12}v8L${foot} ${baseline - 16}V${baseline - 7}`;
}

interface NameProps {
  readonly x: number;
  readonly plan: SheetPlan;
  readonly words: string;
  readonly sort: string;
  /** Its state, where it is worth a word. */
  readonly said?: string;
}

function Name({ x, plan, words, sort, said }: NameProps) {
  return (
    <text className={`way-name ${sort}`} transform={`translate(${x + 3} ${plan.numbers - 15}) rotate(-52)`}>
      {words}
      {said === undefined || said === '' ? null : (
        <tspan className="way-word" dx="6">
          {said}
        </tspan>
      )}
    </text>
  );
}

function StationLines({ placed, plan }: { readonly placed: PlacedStation; readonly plan: SheetPlan }) {
  const { station, x, foot } = placed;
  const { title } = station;
  return (
    <g className={shapeOf(station)}>
      <path className="way-leader" d={leader(x, foot, plan)} />
      <circle className="way-foot" cx={foot} cy={plan.baseline} r="2.6" />
      <Name x={x} plan={plan} sort="" words={slantedWords(title)} said={wordOf(station)} />
    </g>
  );
}

function GateLines({ placed, plan }: { readonly placed: PlacedGate; readonly plan: SheetPlan }) {
  const { gate, x, foot } = placed;
  const { numbers, baseline, profile } = plan;
  const known = gate.opens !== undefined;
  return (
    <g className="way-gate">
      <path className="way-leader" d={leader(x, foot, plan)} />
      <path
        className="way-barrier"
        d={`M${x - 6} ${numbers - 10}v22M${x + 6} ${numbers - 10}v22M${x - 6} ${numbers - 4}h12M${x - 6} ${numbers + 3}h12`}
      />
      {known ? (
        <path
          className="way-posts"
          d={`M${foot - 2} ${baseline - 12}V${profile.bottom}M${foot + 2} ${baseline - 12}V${profile.bottom}`}
        />
      ) : null}
      <Name x={x} plan={plan} words={slantedWords(gate.title)} sort="gate" />
    </g>
  );
}

function Baseline({ plan }: { readonly plan: SheetPlan }) {
  const { baseline, weeks, months, end, today } = plan;
  const ticks = weeks.map((x) => `M${x} ${baseline - 3}v6`).join('');
  const marks = months.map(({ x }) => `M${x} ${baseline - 10}v20`).join('');
  return (
    <g className="way-line">
      <path className="way-travelled" d={`M20 ${baseline - 7}H${today}v14H20z`} />
      <path className="way-edge" d={`M8 ${baseline - 7}H${end + 12}M8 ${baseline + 7}H${end + 12}`} />
      <path className="way-centre" d={`M8 ${baseline}H${end + 12}`} />
      {weeks.length > 1 && (weeks[1] ?? 0) - (weeks[0] ?? 0) < 8 ? null : <path className="way-ticks" d={ticks} />}
      <path className="way-edge" d={marks} />
    </g>
  );
}

/** The plan: names, leaders, the baseline with its ticks, and the gates that stand across everything. */
export function PlanBand({ plan }: { readonly plan: SheetPlan }) {
  return (
    <g>
      <Baseline plan={plan} />
      {plan.gates.map((placed) => (
        <GateLines key={placed.gate.key} placed={placed} plan={plan} />
      ))}
      {plan.stations.map((placed) => (
        <StationLines key={placed.station.key} placed={placed} plan={plan} />
      ))}
    </g>
  );
}
