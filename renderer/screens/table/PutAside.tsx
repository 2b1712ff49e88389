import { Button } from '../../kit/Button.tsx';
import { perform } from '../../state/doing.ts';

async function takeUp(name: string): Promise<void> {
  await perform('take-up', { item: name }, { say: ({ name: now }) => `On the table again: ${now}.` });
}

/** What was put aside: how many, which, and the way to take each up again. */
export function PutAside({ names }: { readonly names: readonly string[] }) {
  if (names.length === 0) return null;
  return (
    <details className="table-aside">
      <summary>Put aside: {names.length}</summary>
      <ul>
        {names.map((name) => (
          <li key={name}>
            <span>{name}</span>{' '}
            <Button as="word" small onPress={() => void takeUp(name)} label={`Take up ${name}`}>
              take up
            </Button>
          </li>
        ))}
      </ul>
    </details>
  );
}
