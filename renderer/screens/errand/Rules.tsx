import { useState } from 'react';
import type { AmendableRow } from '../../../core/desk/contract/screen-answers.ts';
import { Button } from '../../kit/Button.tsx';

interface RuleRowProps {
  readonly row: AmendableRow;
  /** Its basis stands above already. */
  readonly bare: boolean;
  readonly onPick: () => void;
}

function RuleRow({ row, bare, onPick }: RuleRowProps) {
  return (
    <li>
      <p>
        {row.say} {bare ? null : <span className="pencil small">{row.basis}</span>}
      </p>
      <Button small onPress={onPick} label={`Change: ${row.group}, ${row.label}`}>
        Change
      </Button>
    </li>
  );
}

interface RuleGroupProps {
  readonly group: string;
  readonly rows: readonly AmendableRow[];
  readonly open: boolean;
  readonly onPick: (rule: string) => void;
}

function RuleGroup({ group, rows, open, onPick }: RuleGroupProps) {
  const [basis, ...others] = [...new Set(rows.map((row) => row.basis))];
  const one = others.length === 0;
  return (
    <details className="errand-rules" open={open}>
      <summary>
        <strong>{group}</strong> {one ? <span className="pencil small">{basis}</span> : null}
      </summary>
      <ul>
        {rows.map((row) => (
          <RuleRow key={row.rule} row={row} bare={one} onPick={() => onPick(row.rule)} />
        ))}
      </ul>
    </details>
  );
}

export interface RulesProps {
  readonly rows: readonly AmendableRow[];
  /** The need it was asked from. */
  readonly about: string | undefined;
  readonly onPick: (rule: string) => void;
}

/** Rules by what they are about; first only those of the need it was asked from. */
export function Rules({ rows, about, onPick }: RulesProps) {
  const near = about === undefined ? [] : rows.filter(({ rule }) => rule.includes(`.needs.${about}.`));
  const [all, showAll] = useState(near.length === 0);
  const shown = all ? rows : near;
  return (
    <>
      <p>Which rule did the office put otherwise?</p>
      <div>
        {[...Map.groupBy(shown, ({ group }) => group)].map(([group, some], at) => (
          <RuleGroup key={group} group={group} rows={some} open={!all || at === 0} onPick={onPick} />
        ))}
      </div>
      {all ? null : (
        <p>
          <Button as="word" onPress={() => showAll(true)}>
            All rules of this errand
          </Button>
        </p>
      )}
    </>
  );
}
