import type { ErrorShape } from '../../core/vocabulary/errors.ts';

/** An error in place: what, which thing, what to do next. */
export function Trouble({ error }: { readonly error: ErrorShape }) {
  return (
    <div className="trouble" role="alert">
      <p>
        <strong>{error.message}</strong>
      </p>
      {error.about === undefined || error.message.includes(error.about) ? null : <p className="small">{error.about}</p>}
      {error.next === undefined ? null : <p>{error.next}</p>}
    </div>
  );
}
