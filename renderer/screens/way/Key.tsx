const states = [
  ['settled', 'settled'],
  ['can-go', 'can go'],
  ['too-soon', 'can go, but too soon'],
  ['left-with-them', 'left with them'],
  ['sent-back', 'sent back'],
  ['cant-go-yet', "can't go yet"],
] as const;

/** What the shapes of the sheet mean; the words stand beside them. */
export function Key({ earlier }: { readonly earlier: number }) {
  return (
    <div className="way-foot-line">
      <dl className="way-key">
        {states.map(([sort, word]) => (
          <div key={sort}>
            <dt>
              <span className={`way-station ${sort}`}>
                <span>1</span>
              </span>
            </dt>
            <dd>{word}</dd>
          </div>
        ))}
        <div>
          <dt>
            <svg viewBox="0 0 16 16" aria-hidden="true" className="way-gate">
              <path className="way-barrier" d="M3 1v14M13 1v14M3 5h10M3 11h10" />
            </svg>
          </dt>
          <dd>not yet: may not be done before</dd>
        </div>
        <div>
          <dt>
            <svg viewBox="0 0 30 16" aria-hidden="true" className="way-key-strip">
              <path d="M1 2h6v12H1z" />
              <path d="M7 2h14l6 5v7H7zM21 2v5h6M9 14l6-12M13 14l6-12M17 14l5-9M21 14l4-7" />
            </svg>
          </dt>
          <dd>a paper’s life: lived, and left</dd>
        </div>
      </dl>
      <p className="pencil">
        {earlier === 0 ? '' : `${earlier} settled longer ago stand on the list only. `}
        Arrows walk the stations, Enter opens one, + and − zoom.
      </p>
    </div>
  );
}
