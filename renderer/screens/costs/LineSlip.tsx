import { useState } from 'react';
import type { CostRow, CostsAnswer } from '../../../core/desk/contract/cost-answers.ts';
import type { CostSort } from '../../../core/vocabulary/costs.ts';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { Field } from '../../kit/Field.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { filled, said, typedSum } from './sums.ts';

const sorts: readonly { readonly id: CostSort; readonly title: string }[] = [
  { id: 'work', title: 'Work' },
  { id: 'fees', title: 'Fees' },
  { id: 'contingency', title: 'Contingency' },
  { id: 'land', title: 'Land' },
];

function isSort(text: string): text is CostSort {
  return sorts.some(({ id }) => id === text);
}

export interface LineSlipProps {
  readonly costs: CostsAnswer;
  readonly row: CostRow | undefined;
  readonly onClose: () => void;
}

interface Draft {
  readonly title: string;
  readonly sort: CostSort;
  readonly estimate: string;
  readonly agreed: string;
  readonly firm: string | undefined;
}

function draftOf(row: CostRow | undefined): Draft {
  return {
    title: row?.title ?? '',
    sort: row?.sort ?? 'work',
    estimate: typedSum(row?.estimate),
    agreed: typedSum(row?.price),
    firm: row?.subject,
  };
}

/** One line of the estimate, and the price agreed for it. */
export function LineSlip({ costs, row, onClose }: LineSlipProps) {
  const [draft, setDraft] = useState(() => draftOf(row));
  const set = (change: Partial<Draft>): void => setDraft({ ...draft, ...change });
  const { title, sort, estimate, agreed, firm } = draft;
  const buffer = sort === 'contingency';
  const offered = sorts.filter(({ id }) => id !== 'contingency' || costs.contingency === undefined);
  const keep = async (): Promise<void> => {
    const line = { row: row?.line, title: title.trim(), sort, estimate: said(estimate) };
    const price = buffer ? {} : { agreed: said(agreed), firm };
    const reply = await perform(
      'cost-line',
      { title, ...filled({ ...line, ...price }) },
      { say: `Noted: ${title.trim()}.` },
    );
    if (reply.ok) onClose();
  };
  const remove = async (): Promise<void> => {
    if (row === undefined) return;
    const reply = await perform(
      'remove-cost',
      { what: 'cost-line', row: row.line },
      { say: `Took ${row.title} away.` },
    );
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title={row === undefined ? 'A line of the estimate' : row.title}
      open
      onClose={onClose}
      foot={
        <>
          <Button as="stamp" disabled={title.trim() === ''} onPress={() => void keep()}>
            Note it
          </Button>
          {row === undefined ? null : (
            <Button as="word" onPress={() => void remove()}>
              take the line away
            </Button>
          )}
        </>
      }
    >
      {row === undefined ? (
        <Choices label="What for" options={offered} value={sort} onChange={(id) => isSort(id) && set({ sort: id })} />
      ) : null}
      <Field
        label={buffer ? 'What you call it' : 'Trade, or what it is for'}
        value={title}
        onChange={(text) => set({ title: text })}
        placeholder={buffer ? 'Contingency' : 'for example: Framing'}
        autoFocus
      />
      <div className="costs-pair">
        <Field
          label={buffer ? 'Planned, in dollars' : 'Estimate, in dollars'}
          value={estimate}
          onChange={(text) => set({ estimate: text })}
          hint={buffer ? 'An owner who builds commonly plans a quarter of the work.' : undefined}
        />
        {buffer ? null : (
          <Field
            label="Price agreed, in dollars"
            value={agreed}
            onChange={(text) => set({ agreed: text })}
            hint="Empty while none is agreed; without change orders."
          />
        )}
      </div>
      {buffer || costs.firms.length === 0 ? null : (
        <Pick
          label="Agreed with"
          options={costs.firms.map(({ subject, title: name }) => ({ id: subject, title: name }))}
          value={firm}
          onChange={(id) => set({ firm: id })}
          placeholder="Nobody yet"
        />
      )}
    </Slip>
  );
}
