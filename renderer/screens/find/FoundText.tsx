export interface FoundTextProps {
  readonly text: string;
  /** [start, end) of the found words. */
  readonly marks: readonly (readonly [number, number])[];
}

/** A snippet with the found words marked. */
export function FoundText({ text, marks }: FoundTextProps) {
  const parts: React.ReactNode[] = [];
  let at = 0;
  for (const [start, end] of marks) {
    if (start < at) continue;
    parts.push(text.slice(at, start), <mark key={start}>{text.slice(start, end)}</mark>);
    at = end;
  }
  parts.push(text.slice(at));
  return <>{parts}</>;
}
