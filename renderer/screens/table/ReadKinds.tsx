import { Fragment } from 'react';
import type { ReadKind } from '../../../core/desk/contract/table-answers.ts';
import { Button } from '../../kit/Button.tsx';

export interface ReadKindsProps {
  readonly kinds: readonly ReadKind[];
  readonly kind: string | undefined;
  readonly onKind: (kind: string) => void;
}

const trust = { sure: 'Reads like', likely: 'Reads like, look at it', guess: 'Perhaps' } as const;

/** What the words on it speak for, with the words. */
export function ReadKinds({ kinds, kind, onKind }: ReadKindsProps) {
  const [best, ...others] = kinds;
  if (best === undefined || best.kind === kind || (kind !== undefined && best.sureness === 'guess')) return null;
  return (
    <div className={`table-suggested small ${best.sureness}`}>
      <p>
        {trust[best.sureness]}: <strong>{best.title}</strong>{' '}
        <Button as="word" small onPress={() => onKind(best.kind)} label={`Take it: ${best.title}`}>
          take it
        </Button>
      </p>
      {best.because.length === 0 ? null : (
        <p className="pencil">
          {best.because
            .slice(0, 3)
            .map((words) => `“${words}”`)
            .join(', ')}
        </p>
      )}
      {others.length === 0 || kind !== undefined ? null : (
        <p>
          or{' '}
          {others.map((other, at) => (
            <Fragment key={other.kind}>
              {at === 0 ? '' : ', '}
              <Button as="word" small onPress={() => onKind(other.kind)} label={`Take it: ${other.title}`}>
                {other.title}
              </Button>
            </Fragment>
          ))}
        </p>
      )}
    </div>
  );
}
