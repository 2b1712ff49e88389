import type { PaperRow } from '../../../core/desk/contract/answers.ts';
import type { LinkWord } from '../../../core/vocabulary/lot.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { Choices } from '../../kit/Choices.tsx';
import { Pick } from '../../kit/Pick.tsx';

export interface LinkSaid {
  readonly word: LinkWord;
  /** An edition. */
  readonly to: string;
}

export interface LinkAsk {
  readonly practice: Practice;
  readonly papers: readonly PaperRow[];
  readonly kind: string;
  /** As the list says it: the subject's title. */
  readonly subject?: string | undefined;
  /** The edition the links start from, where it is kept already. */
  readonly self?: string | undefined;
  /** Links it has: what stands is not asked again. */
  readonly has?: readonly LinkSaid[] | undefined;
}

interface Target {
  readonly id: string;
  readonly title: string;
}

/** A paper's editions to link to, newest first; of its own paper only those that came before it. */
function targetsOf(row: PaperRow, self: string | undefined): readonly Target[] {
  const own = row.editions.findIndex(({ edition }) => edition === self);
  return (own < 0 ? row.editions : row.editions.slice(0, own))
    .map(({ edition, number, issued, current }) => {
      const parts = [number === '' ? 'no number' : number, issued === '' ? '' : issued, current ? 'counts now' : ''];
      return { id: edition, title: `${row.title}: ${parts.filter((part) => part !== '').join(', ')}` };
    })
    .toReversed();
}

/** Editions of the same paper that were kept before, newest first. */
export function sameBefore({ papers, kind, subject, self }: LinkAsk): readonly Target[] {
  return papers.filter((row) => row.kind === kind && row.subject === subject).flatMap((row) => targetsOf(row, self));
}

/** What this kind extends, by the practice's own rule. */
export function extendable({ practice, papers, kind }: LinkAsk): readonly Target[] {
  return papers
    .filter((row) => practice.papers[row.kind]?.extension?.by === kind)
    .flatMap((row) => targetsOf(row, undefined));
}

/** What this kind is drawn up from, by the practice's own rule. */
export function sources({ practice, papers, kind }: LinkAsk): readonly Target[] {
  const from = practice.papers[kind]?.madeFrom ?? [];
  return papers.filter((row) => from.includes(row.kind)).flatMap((row) => targetsOf(row, undefined));
}

export interface LinkFieldsProps {
  readonly ask: LinkAsk;
  readonly links: readonly LinkSaid[];
  readonly onLinks: (links: readonly LinkSaid[]) => void;
}

const sameWords = [
  { id: 'replaces', title: 'It replaces it' },
  { id: 'amends', title: 'It amends it' },
  { id: 'continues', title: 'It is the next period' },
  { id: 'none', title: 'Neither' },
] as const;

function SameField({ ask, links, onLinks }: LinkFieldsProps) {
  const before = sameBefore(ask);
  const [newest] = before;
  const stands = ask.has?.some(({ to }) => before.some(({ id }) => id === to)) === true;
  if (newest === undefined || stands) return null;
  const said = links.find(({ to }) => before.some(({ id }) => id === to));
  const others = links.filter((link) => link !== said);
  const choose = (id: string): void => {
    const word = sameWords.find((each) => each.id === id)?.id;
    const to = said?.to ?? newest.id;
    onLinks(word === undefined || word === 'none' ? others : [...others, { word, to }]);
  };
  return (
    <div className="fact-group">
      <Choices
        label="One is kept already. What is this to it?"
        options={sameWords}
        value={said?.word ?? 'none'}
        onChange={choose}
      />
      {said === undefined || before.length < 2 ? (
        <p className="small pencil">{newest.title}</p>
      ) : (
        <Pick
          label="Which one"
          options={before}
          value={said.to}
          onChange={(to) => onLinks([...others, { word: said.word, to }])}
        />
      )}
    </div>
  );
}

interface OneLinkProps extends LinkFieldsProps {
  readonly word: LinkWord;
  readonly label: string;
  readonly targets: readonly Target[];
}

function OneLink({ ask, word, label, targets, links, onLinks }: OneLinkProps) {
  const stands = ask.has?.some((link) => link.word === word && targets.some(({ id }) => id === link.to)) === true;
  if (targets.length === 0 || stands) return null;
  const said = links.find((link) => link.word === word && targets.some(({ id }) => id === link.to));
  const others = links.filter((link) => link !== said);
  return (
    <Pick
      label={label}
      options={[{ id: 'none', title: 'Not noted' }, ...targets]}
      value={said?.to ?? 'none'}
      onChange={(to) => onLinks(to === 'none' ? others : [...others, { word, to }])}
    />
  );
}

/** How a paper hangs together with what is kept: asked only where there is something to hang together with. */
export function LinkFields(props: LinkFieldsProps) {
  return (
    <>
      <SameField {...props} />
      <OneLink {...props} word="extends" label="It extends" targets={extendable(props.ask)} />
      <OneLink {...props} word="made from" label="It was made from" targets={sources(props.ask)} />
    </>
  );
}
