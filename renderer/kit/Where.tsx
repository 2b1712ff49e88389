import type { ShownPlace } from '../../core/desk/contract/table-answers.ts';
import { port } from '../client/port.ts';
import { tellTrouble } from '../state/telling.ts';
import { Button } from './Button.tsx';

async function show(ticket: string): Promise<void> {
  const reply = await port.act('show-file', { ticket });
  if (!reply.ok) tellTrouble(reply.error);
}

/** A place on this computer as it is written there, to be copied; on the desktop one press shows it. */
export function Where({ place: { path, ticket } }: { readonly place: ShownPlace }) {
  return (
    <span className="where">
      <code className="mono">{path}</code>
      {port.host === 'desktop' ? (
        <>
          {' '}
          <Button as="word" small onPress={() => void show(ticket)} label={`Show ${path}`}>
            Show
          </Button>
        </>
      ) : null}
    </span>
  );
}
