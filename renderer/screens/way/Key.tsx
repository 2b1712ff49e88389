const states = [
  ['settled', 'settled'],
  ['can-go', 'can go'],
  ['left-with-them', 'left with them'],
  ['sent-back', 'sent back'],
  ['cant-go-yet', "can't go yet"],
] as const;

/** What the shapes of the sheet mean; the words stand beside them. */
export function Key() {
  return (
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
        <dd>may not be done before</dd>
      </div>
    </dl>
  );
}
