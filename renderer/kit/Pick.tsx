import { Button } from 'react-aria-components/Button';
import { Label } from 'react-aria-components/Label';
import { ListBox, ListBoxItem } from 'react-aria-components/ListBox';
import { Popover } from 'react-aria-components/Popover';
import { Select, SelectValue } from 'react-aria-components/Select';

export interface PickOption {
  readonly id: string;
  readonly title: string;
}

export interface PickProps {
  readonly label: string;
  readonly options: readonly PickOption[];
  readonly value: string | undefined;
  readonly onChange: (id: string) => void;
  readonly placeholder?: string | undefined;
}

/** One of a list that opens. For two to five choices use `Choices`: nothing is hidden there. */
export function Pick({ label, options, value, onChange, placeholder }: PickProps) {
  return (
    <Select
      className="field"
      value={value ?? null}
      onChange={(key) => {
        if (key !== null) onChange(String(key));
      }}
      placeholder={placeholder ?? 'Choose'}
    >
      <Label>{label}</Label>
      <Button className="pick">
        <SelectValue />
        <span aria-hidden="true">▾</span>
      </Button>
      <Popover className="popover">
        <ListBox items={options}>{({ id, title }) => <ListBoxItem id={id}>{title}</ListBoxItem>}</ListBox>
      </Popover>
    </Select>
  );
}
