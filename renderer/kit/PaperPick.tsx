import { useState } from 'react';
import type { PaperRow } from '../../core/desk/contract/answers.ts';
import { useAnswer } from '../state/asked.ts';
import { Pick, type PickOption } from './Pick.tsx';

const none = 'none';

interface Wanted {
  readonly first?: RegExp;
  readonly value?: string | undefined;
}

/** Papers whose titles speak of it stand first. */
function optionsOf(papers: readonly PaperRow[], { first, value }: Required<Wanted>): readonly PickOption[] {
  const rows = papers.flatMap(({ title, subject, editions }) => {
    const chosen = editions.find(({ edition }) => edition === value);
    const edition = chosen ?? editions.find(({ current }) => current) ?? editions.at(-1);
    if (edition === undefined) return [];
    const named = [title, subject, edition.number, edition.issued].filter((each) => each !== undefined && each !== '');
    return [{ id: edition.edition, title: named.join(', '), first: first.test(title) }];
  });
  return rows.toSorted((a, b) => Number(b.first) - Number(a.first) || a.title.localeCompare(b.title));
}

export interface PaperPickProps {
  readonly label: string;
  /** An edition. */
  readonly value: string | undefined;
  readonly onChange: (edition: string | undefined) => void;
  /** Told by the titles: these stand first. */
  readonly first?: RegExp | undefined;
}

/** One of the kept papers, chosen instead of typed; nothing is shown while none is kept. */
export function PaperPick({ label, value, onChange, first = /^$/ }: PaperPickProps) {
  const papers = useAnswer('papers', {}).answer?.papers ?? [];
  // What is linked already can be changed for another paper; nothing unlinks it.
  const [begun] = useState(value);
  const options = optionsOf(papers, { first, value });
  if (options.length === 0) return null;
  return (
    <Pick
      label={label}
      options={begun === undefined ? [{ id: none, title: 'None' }, ...options] : options}
      value={value ?? none}
      onChange={(id) => onChange(id === none ? undefined : id)}
    />
  );
}
