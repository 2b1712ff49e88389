import { type CalendarDate, parseDate } from '@internationalized/date';
import { DateField, DateInput, DateSegment } from 'react-aria-components/DateField';
import { Label } from 'react-aria-components/Label';
import { Text } from 'react-aria-components/Text';
import { type Day, isDay } from '../../core/vocabulary/days.ts';

export interface DayFieldProps {
  readonly label: string;
  readonly value: Day | undefined;
  readonly onChange: (day: Day | undefined) => void;
  readonly hint?: string | undefined;
}

/** A calendar date typed part by part, month first as the trade writes it here. */
export function DayField({ label, value, onChange, hint }: DayFieldProps) {
  const change = (date: CalendarDate | null): void => {
    const text = date?.toString() ?? '';
    onChange(isDay(text) ? text : undefined);
  };
  return (
    <DateField
      className="field"
      value={value === undefined ? null : parseDate(value)}
      onChange={change}
      granularity="day"
    >
      <Label>{label}</Label>
      <DateInput className="day">{(segment) => <DateSegment segment={segment} />}</DateInput>
      {hint === undefined ? null : (
        <Text slot="description" className="hint">
          {hint}
        </Text>
      )}
    </DateField>
  );
}
