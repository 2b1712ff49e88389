import { useState } from 'react';
import type { CostsAnswer, DrawLineRow, DrawRow } from '../../../core/desk/contract/cost-answers.ts';
import type { Day } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Tick } from '../../kit/Tick.tsx';
import { perform } from '../../state/doing.ts';
import { go } from '../../state/place.ts';
import { useDay } from '../../state/session.ts';
import { columnSum, filled, typedSum } from './sums.ts';

type Typed = Readonly<Record<string, string>>;

/** Lines a draw may ask for, with what stands behind each. */
function linesOf(
  costs: CostsAnswer,
): readonly { readonly line: string; readonly title: string; readonly billed: number }[] {
  return costs.rows.filter(({ sort }) => sort !== 'land').map(({ line, title, billed }) => ({ line, title, billed }));
}

function typedOf(row: DrawRow | undefined, field: 'work' | 'stored'): Typed {
  return Object.fromEntries((row?.lines ?? []).map((line) => [line.line, typedSum(line[field])]));
}

/** What draws before this one asked for, by line. */
function before(costs: CostsAnswer, row: DrawRow | undefined): ReadonlyMap<string, number> {
  const last = row === undefined ? costs.draws.at(-1) : costs.draws.findLast(({ number }) => number < row.number);
  return new Map((last?.lines ?? []).map((line: DrawLineRow) => [line.line, line.previous + line.work]));
}

function percentOf(text: string): number | undefined {
  const value = Number(text.replace('%', '').trim());
  return text.trim() === '' || !Number.isFinite(value) ? undefined : value;
}

interface RowProps {
  readonly line: ReturnType<typeof linesOf>[number];
  readonly drawn: number;
  readonly work: string;
  readonly stored: string;
  readonly onWork: (text: string) => void;
  readonly onStored: (text: string) => void;
}

function Row({ line, drawn, work, stored, onWork, onStored }: RowProps) {
  return (
    <li>
      <span>
        {line.title}
        <span className="small pencil more">
          {line.billed === 0 && drawn === 0 ? '' : `billed ${columnSum(line.billed)}, drawn ${columnSum(drawn)}`}
        </span>
      </span>
      <Field label={`${line.title}: work since`} value={work} onChange={onWork} />
      <Field label={`${line.title}: stored now`} value={stored} onChange={onStored} />
    </li>
  );
}

export interface DrawSlipProps {
  readonly costs: CostsAnswer;
  readonly row: DrawRow | undefined;
  readonly onClose: () => void;
}

/** Work since the last draw and material stored now, line by line. */
export function DrawSlip({ costs, row, onClose }: DrawSlipProps) {
  const today = useDay();
  const last = row ?? costs.draws.at(-1);
  const [work, setWork] = useState<Typed>(() => typedOf(row, 'work'));
  const [stored, setStored] = useState<Typed>(() => typedOf(row, 'stored'));
  const [day, setDay] = useState<Day | undefined>(row?.day ?? today);
  const [rate, setRate] = useState(String(last?.workPercent ?? 10));
  const [storedRate, setStoredRate] = useState(String(last?.storedPercent ?? 10));
  const [final, setFinal] = useState(row?.final ?? false);
  const drawn = before(costs, row);
  const keep = async (): Promise<void> => {
    const rates = { retainage: percentOf(rate), storedRetainage: percentOf(storedRate) };
    const said = {
      ...filled({ row: row?.draw, day, ...rates }),
      work: only(work, row),
      stored: only(stored, row),
      final,
    };
    const reply = await perform('draw', said, {
      say: row === undefined ? 'Drew it up.' : `Changed draw ${row.number}.`,
    });
    if (!reply.ok) return;
    onClose();
    if (row === undefined) go('costs', 'draw', String((costs.draws.at(-1)?.number ?? 0) + 1));
  };
  return (
    <Slip
      title={row === undefined ? `Draw ${(costs.draws.at(-1)?.number ?? 0) + 1}` : `Draw ${row.number}`}
      open
      wide
      onClose={onClose}
      foot={
        <Button as="stamp" onPress={() => void keep()}>
          {row === undefined ? 'Draw it up' : 'Note it'}
        </Button>
      }
    >
      <p className="small">
        In dollars. Work is what was done since the draw before, material that was stored then and is built in now
        included. Stored is all that lies on the site now.
      </p>
      <div>
        <p className="costs-draw-head small" aria-hidden="true">
          <span>Line</span>
          <span>Work since</span>
          <span>Stored now</span>
        </p>
        <ul className="costs-draw-lines">
          {linesOf(costs).map((line) => (
            <Row
              key={line.line}
              line={line}
              drawn={drawn.get(line.line) ?? 0}
              work={work[line.line] ?? ''}
              stored={stored[line.line] ?? ''}
              onWork={(text) => setWork({ ...work, [line.line]: text })}
              onStored={(text) => setStored({ ...stored, [line.line]: text })}
            />
          ))}
        </ul>
      </div>
      <div className="costs-pair">
        <DayField label="Work through" value={day} onChange={setDay} />
        <Field
          label="Held back of work, in percent"
          value={rate}
          onChange={setRate}
          hint="Your loan agreement says it."
        />
        <Field label="Held back of stored, in percent" value={storedRate} onChange={setStoredRate} />
      </div>
      <Tick
        checked={final}
        onChange={(is) => {
          setFinal(is);
          if (is) {
            setRate('0');
            setStoredRate('0');
          }
        }}
      >
        The last draw: it asks for what was held back as well
      </Tick>
    </Slip>
  );
}

/** Filled fields; of a draw that is there also the emptied ones, which mean nothing now. */
function only(typed: Typed, row: DrawRow | undefined): Record<string, string> {
  return Object.fromEntries(Object.entries(typed).filter(([, text]) => row !== undefined || text.trim() !== ''));
}
