import type { CostsAnswer } from '../../../core/desk/contract/cost-answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { useAnswer } from '../../state/asked.ts';
import { fetchAnswer } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import type { ScreenProps } from '../screen-props.ts';
import { Beside, Fees } from './Beside.tsx';
import { CostSlips } from './CostSlips.tsx';
import { layOver } from './costs-store.ts';
import { DrawCards } from './DrawCards.tsx';
import { Invoices } from './Invoices.tsx';
import { Ledger } from './Ledger.tsx';
import { OneDraw } from './OneDraw.tsx';
import './costs.css';

async function saveBreakdown(): Promise<void> {
  const made = await fetchAnswer('write-paper', { sort: 'cost-breakdown' });
  if (made !== undefined) await saveFile(made);
}

function Empty() {
  return (
    <div className="empty">
      <h2>No estimate yet</h2>
      <p>
        Write one line a trade with what you expect it to cost, and one for what nobody foresees. Lenders and many
        permit offices ask for exactly this sheet; prices, invoices and draws are then noted on its lines.
      </p>
      <Button as="stamp" onPress={() => layOver({ slip: 'line' })}>
        Write the first line
      </Button>
    </div>
  );
}

function Findings({ costs }: { readonly costs: CostsAnswer }) {
  if (costs.findings.length === 0 || costs.rows.length === 0) return null;
  return (
    <div className="costs-findings">
      {costs.findings.map((finding) => (
        <FindingNote key={finding.say} finding={finding} />
      ))}
    </div>
  );
}

function Whole({ costs }: { readonly costs: CostsAnswer }) {
  if (costs.rows.length === 0 && costs.contingency === undefined) {
    return (
      <div className="costs-sheet">
        <Empty />
        <aside className="costs-beside">
          <Fees fees={costs.fees} />
        </aside>
      </div>
    );
  }
  return (
    <>
      <Findings costs={costs} />
      <div className="costs-sheet">
        <div>
          <Ledger costs={costs} />
          <div className="costs-acts under">
            <Button onPress={() => layOver({ slip: 'line' })}>Add a line</Button>
            <Button onPress={() => layOver({ slip: 'change order' })}>Note a change order</Button>
          </div>
        </div>
        <Beside costs={costs} />
      </div>
      <DrawCards costs={costs} />
      <Invoices costs={costs} />
    </>
  );
}

/** What the house costs: estimate, agreed, paid, still to pay; and the lender's draws. */
export function CostsScreen({ rest }: ScreenProps) {
  const answer = useAnswer('costs', {});
  const [part, number] = rest;
  return (
    <>
      {part === 'draw' && number !== undefined ? (
        <OneDraw number={number} />
      ) : (
        <>
          <header>
            <div>
              <h1>Costs and draws</h1>
              <p className="lead">What it was estimated at, what is agreed, what is paid, what is still to pay.</p>
            </div>
            {answer.answer === undefined || answer.answer.rows.length === 0 ? null : (
              <Button onPress={() => void saveBreakdown()}>Save the cost breakdown</Button>
            )}
          </header>
          <Answered of={answer}>{(costs) => <Whole costs={costs} />}</Answered>
        </>
      )}
      {answer.answer === undefined ? null : <CostSlips costs={answer.answer} />}
    </>
  );
}
