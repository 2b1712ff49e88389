import { isDay } from '../../../core/vocabulary/days.ts';
import type { FactSort } from '../../../core/vocabulary/facts.ts';
import { Choices } from '../../kit/Choices.tsx';
import { DayField } from '../../kit/DayField.tsx';
import { Field } from '../../kit/Field.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { elevationParts, elevationSaid, wrongWith } from './fact-said.ts';
import './facts.css';

/** How each sort is written, said under its field. */
const hints: Partial<Readonly<Record<FactSort, string>>> = {
  money: 'dollars, such as 1,250',
  length: 'feet, such as 12.5',
  area: 'square feet, such as 1,850',
  volume: 'cubic feet',
  flow: 'cfm',
  percent: 'percent',
  count: 'a whole number',
};

export interface FactFieldProps {
  readonly title: string;
  readonly sort: FactSort;
  /** As a person says it; empty where nothing is said. */
  readonly said: string;
  readonly onSay: (said: string) => void;
}

/** Two datums are never compared, so the height is nothing without its own. */
const datums = ['NAVD 88', 'NGVD 29', 'local datum'];

function ElevationField({ title, said, onSay }: FactFieldProps) {
  const parts = elevationParts(said);
  const wrong = parts.feet === '' ? undefined : wrongWith('number', parts.feet, title);
  const known = datums.some((datum) => datum.toUpperCase() === parts.datum.toUpperCase());
  const options = known || parts.datum === '' ? datums : [...datums, parts.datum];
  return (
    <div className="fact-pair">
      <Field
        label={title}
        value={parts.feet}
        onChange={(feet) => onSay(elevationSaid({ ...parts, feet }))}
        hint="feet"
        wrong={wrong}
      />
      <Pick
        label="Above which datum"
        options={options.map((id) => ({ id, title: id }))}
        value={options.find((datum) => datum.toUpperCase() === parts.datum.toUpperCase())}
        onChange={(datum) => onSay(elevationSaid({ ...parts, datum }))}
        placeholder="As printed"
      />
    </div>
  );
}

/** One fact of a paper, asked for by its sort. */
export function FactField(props: FactFieldProps) {
  const { title, sort, said, onSay } = props;
  switch (sort) {
    case 'day':
      return <DayField label={title} value={isDay(said) ? said : undefined} onChange={(day) => onSay(day ?? '')} />;
    case 'yes or no':
      return (
        <Choices
          label={title}
          options={[
            { id: 'yes', title: 'Yes' },
            { id: 'no', title: 'No' },
          ]}
          value={said === '' ? undefined : said}
          onChange={onSay}
        />
      );
    case 'elevation':
      return <ElevationField {...props} />;
    default:
      return (
        <Field label={title} value={said} onChange={onSay} hint={hints[sort]} wrong={wrongWith(sort, said, title)} />
      );
  }
}
