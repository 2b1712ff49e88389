import { Button } from 'react-aria-components/Button';
import { ComboBox } from 'react-aria-components/ComboBox';
import { Header } from 'react-aria-components/Header';
import { Input } from 'react-aria-components/Input';
import { Label } from 'react-aria-components/Label';
import { ListBox, ListBoxItem, ListBoxSection } from 'react-aria-components/ListBox';
import { Popover } from 'react-aria-components/Popover';
import { Text } from 'react-aria-components/Text';

export interface KindOption {
  readonly id: string;
  readonly title: string;
  readonly office: string;
}

export interface KindPickerProps {
  /** Kinds some errand still waits for: shown first. */
  readonly wanted: readonly KindOption[];
  readonly others: readonly KindOption[];
  readonly kind: string | undefined;
  readonly onKind: (kind: string | undefined) => void;
}

function Section({ title, kinds }: { readonly title: string; readonly kinds: readonly KindOption[] }) {
  if (kinds.length === 0) return null;
  return (
    <ListBoxSection className="kind-section">
      <Header>{title}</Header>
      {kinds.map((kind) => (
        <ListBoxItem key={kind.id} id={kind.id} textValue={kind.title}>
          <Text slot="label">{kind.title}</Text>
          <Text slot="description" className="small pencil">
            {kind.office}
          </Text>
        </ListBoxItem>
      ))}
    </ListBoxSection>
  );
}

/** What is it: type a few letters of it, or look down the list. */
export function KindPicker({ wanted, others, kind, onKind }: KindPickerProps) {
  return (
    <ComboBox
      className="field kind-picker"
      value={kind ?? null}
      onChange={(key) => onKind(key === null ? undefined : String(key))}
      menuTrigger="focus"
    >
      <Label>What is it?</Label>
      <div className="kind-line">
        <Input placeholder="Type a few letters" />
        <Button className="kind-open">
          <span aria-hidden="true">▾</span>
        </Button>
      </div>
      <Popover className="popover kind-popover">
        <ListBox>
          <Section title="Still to get" kinds={wanted} />
          <Section title={wanted.length === 0 ? 'All kinds' : 'Every other kind'} kinds={others} />
          <ListBoxItem id="other" textValue="Something else">
            <Text slot="label">Something else</Text>
            <Text slot="description" className="small pencil">
              you give it a title
            </Text>
          </ListBoxItem>
        </ListBox>
      </Popover>
    </ComboBox>
  );
}
