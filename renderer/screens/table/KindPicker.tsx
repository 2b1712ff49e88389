import { useState } from 'react';
import { Button } from 'react-aria-components/Button';
import { ComboBox } from 'react-aria-components/ComboBox';
import { Input } from 'react-aria-components/Input';
import { Label } from 'react-aria-components/Label';
import { ListBox, ListBoxItem } from 'react-aria-components/ListBox';
import { Popover } from 'react-aria-components/Popover';
import { Text } from 'react-aria-components/Text';
import { foundKinds, type KindOption } from './kind-search.ts';

export interface KindPickerProps {
  /** In the order they are to be offered. */
  readonly kinds: readonly KindOption[];
  readonly kind: string | undefined;
  readonly onKind: (kind: string | undefined) => void;
  readonly label?: string | undefined;
}

/** What is it: type a few letters of it, of its office or of what is printed on it, or look down the list. */
export function KindPicker({ kinds, kind, onKind, label }: KindPickerProps) {
  const title = kinds.find(({ id }) => id === kind)?.title ?? '';
  const [text, setText] = useState(title);
  return (
    <ComboBox
      className="field kind-picker"
      items={foundKinds(kinds, text === title ? '' : text)}
      onInputChange={setText}
      value={kind ?? null}
      onChange={(key) => onKind(key === null ? undefined : String(key))}
      menuTrigger="focus"
      allowsEmptyCollection
    >
      <Label>{label ?? 'What is it?'}</Label>
      <div className="kind-line">
        <Input placeholder="Type a few letters" />
        <Button className="kind-open">
          <span aria-hidden="true">▾</span>
        </Button>
      </div>
      <Popover className="popover kind-popover">
        <ListBox<KindOption>
          renderEmptyState={() => <p className="kind-none">Nothing of that name; take “Something else”.</p>}
        >
          {({ id, title: named, office, wanted }) => (
            <ListBoxItem id={id} textValue={named}>
              <Text slot="label">{named}</Text>
              <Text slot="description" className="small pencil">
                {wanted ? 'still to get · ' : ''}
                {office}
              </Text>
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
