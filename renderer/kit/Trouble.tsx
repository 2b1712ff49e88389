import type { ErrorShape } from '../../core/vocabulary/errors.ts';
import { MendOffer } from './MendOffer.tsx';

/** An error in place: what, which thing, what to do next. `folder`: the ticket of the lot folder it is about, where none is open. */
export function Trouble({ error, folder }: { readonly error: ErrorShape; readonly folder?: string | undefined }) {
  return (
    <div className="trouble" role="alert">
      <p>
        <strong>{error.message}</strong>
      </p>
      {error.about === undefined || error.message.includes(error.about) ? null : <p className="small">{error.about}</p>}
      {error.asks === 'mending' ? (
        <MendOffer folder={folder} otherwise={error.next} />
      ) : error.next === undefined ? null : (
        <p>{error.next}</p>
      )}
    </div>
  );
}
