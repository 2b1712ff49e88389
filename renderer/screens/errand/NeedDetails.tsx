import type { ReactNode } from 'react';
import { spanInWords } from '../../../core/vocabulary/days.ts';
import { basisInWords } from '../../../core/vocabulary/in-words.ts';
import type { Need } from '../../../core/vocabulary/practice.ts';
import { Button } from '../../kit/Button.tsx';
import { addressOf } from '../../state/place.ts';
import { kindTitle, type NeedRow, type Sight } from './errand-model.ts';
import { lay } from './errand-store.ts';

const forms: Readonly<Record<Need['form'], string>> = {
  paper: 'on paper',
  electronic: 'as a file',
  either: 'on paper or as a file',
};

/** What the rule asks of the paper, in rows; only what it does ask. */
function asked(rule: Need, sight: Sight): readonly (readonly [string, string])[] {
  const office = (id: string): string => sight.practice?.offices[id]?.title ?? id;
  const facts = rule.facts.map((fact) => sight.practice?.papers[rule.kinds[0] ?? '']?.facts[fact]?.title ?? fact);
  const rows: readonly (readonly [string, string | undefined])[] = [
    ['why', rule.why],
    ['any one of', rule.kinds.length > 1 ? rule.kinds.map((kind) => kindTitle(sight.practice, kind)).join(', ') : ''],
    ['copies', `${rule.copies}, ${forms[rule.form]}`],
    ['sheet size', rule.sheets.join(' or ')],
    ['seal', rule.seal.join(' or ')],
    ['it must be', rule.marks.join(', ')],
    ['it must show', facts.join(', ')],
    ['approved by', rule.approvedBy === undefined ? '' : office(rule.approvedBy)],
    ['stamped by', rule.stampedBy === undefined ? '' : office(rule.stampedBy)],
    ['good for', rule.goodFor === undefined ? '' : `${spanInWords(rule.goodFor)} after the visit`],
    ['no older than', rule.fresh === undefined ? '' : spanInWords(rule.fresh)],
    ['asked for', rule.optional ? 'only where you have it' : ''],
  ];
  return rows.flatMap(([name, value = '']) => (value === '' ? [] : [[name, value] as const]));
}

function Row({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  );
}

/** The rule behind a need, on whose word it stands, and how long the paper in hand is good. */
export function NeedDetails({ need, sight }: { readonly need: NeedRow; readonly sight: Sight }) {
  const rule = sight.answer.errand.needs.find(({ id }) => id === need.need);
  return (
    <div className="errand-rule">
      <dl>
        {rule === undefined
          ? null
          : asked(rule, sight).map(([name, value]) => (
              <Row key={name} name={name}>
                {value}
              </Row>
            ))}
        {need.clocks.map(({ label, words, why }) => (
          <Row key={label} name="how long">
            {words}. <span className="pencil">{why}</span>
          </Row>
        ))}
        <Row name="who says so">{basisInWords(need.basis)}</Row>
      </dl>
      <p>
        {need.paper === undefined ? null : <a href={addressOf('papers', need.paper)}>Open the paper</a>}{' '}
        <Button as="word" small onPress={() => lay({ slip: 'otherwise', about: need.need })}>
          The office said otherwise
        </Button>
      </p>
    </div>
  );
}
