import { useState } from 'react';
import type { PracticeAnswer } from '../../../core/desk/contract/answers.ts';
import type { AmendableRow } from '../../../core/desk/contract/screen-answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { OtherwiseSlip } from '../../kit/OtherwiseSlip.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { useAnswer } from '../../state/asked.ts';
import { AnotherPaperSlip } from '../errand/AnotherPaper.tsx';

const abouts = ['errand', 'paper', 'office'] as const;
type About = (typeof abouts)[number];

function optionsOf({ practice }: PracticeAnswer, about: About) {
  const all = { errand: practice.errands, paper: practice.papers, office: practice.offices }[about];
  return Object.values(all)
    .map(({ id, title }) => ({ id, title }))
    .toSorted((a, b) => a.title.localeCompare(b.title));
}

interface GroupProps {
  readonly group: string;
  readonly rows: readonly AmendableRow[];
  /** Folded until it is asked for: an errand asks for two dozen papers, each with its own rules. */
  readonly folded: boolean;
  readonly onOtherwise: (row: AmendableRow) => void;
}

/** The rules of one thing; on whose word they stand is said once where it is the same for all. */
function Group({ group, rows, folded, onOtherwise }: GroupProps) {
  const [open, setOpen] = useState(!folded);
  const bases = [...new Set(rows.map(({ basis }) => basis))];
  return (
    <section className="practice-group">
      <header>
        <h3>{group}</h3>
        {bases.length === 1 ? <span className="small pencil">{bases[0]}</span> : null}
        {folded ? (
          <Button
            as="word"
            small
            onPress={() => setOpen(!open)}
            expanded={open}
            label={`${open ? 'fold' : `${rows.length} rules`}: ${group}`}
          >
            {open ? 'fold' : `${rows.length} rules`}
          </Button>
        ) : null}
      </header>
      {open ? (
        <ul className="practice-rules">
          {rows.map((row) => (
            <li key={row.rule}>
              <span>{row.say}</span>
              <span className="small pencil">{bases.length === 1 ? '' : row.basis}</span>
              <Button
                as="word"
                small
                onPress={() => onOtherwise(row)}
                label={`They said otherwise: ${group}, ${row.label}`}
              >
                they said otherwise
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}

/** Shown open all at once; more than these are folded, all but the first. */
const openAtOnce = 3;

function Rules({ rows }: { readonly rows: readonly AmendableRow[] }) {
  const [open, setOpen] = useState<AmendableRow>();
  const groups = [...new Set(rows.map(({ group }) => group))];
  return (
    <>
      {groups.map((group, index) => (
        <Group
          key={group}
          group={group}
          rows={rows.filter((row) => row.group === group)}
          folded={groups.length > openAtOnce && index > 0}
          onOtherwise={setOpen}
        />
      ))}
      {open === undefined ? null : <OtherwiseSlip key={open.rule} row={open} onClose={() => setOpen(undefined)} />}
    </>
  );
}

function Another({ errand }: { readonly errand: string }) {
  const [open, setOpen] = useState(false);
  return (
    <p>
      <Button onPress={() => setOpen(true)}>They want another paper too</Button>
      {open ? <AnotherPaperSlip errand={errand} onClose={() => setOpen(false)} /> : null}
    </p>
  );
}

/** Looks up the rules of one errand, paper or office, and amends one on somebody's word. */
export function Amend({ answer }: { readonly answer: PracticeAnswer }) {
  const [about, setAbout] = useState<About>('errand');
  const [id, setId] = useState<string>();
  const rules = useAnswer('amendable', id === undefined ? undefined : { [about]: id });
  return (
    <section className="practice-block">
      <h2>Rules</h2>
      <div className="practice-pickers">
        <Choices
          label="Rules about"
          options={abouts.map((each) => ({ id: each, title: `an ${each}`.replace('an paper', 'a paper') }))}
          value={about}
          onChange={(chosen) => {
            setAbout(abouts.find((each) => each === chosen) ?? 'errand');
            setId(undefined);
          }}
        />
        <Pick label={`Which ${about}?`} options={optionsOf(answer, about)} value={id} onChange={setId} />
      </div>
      {id === undefined ? (
        <p className="pencil">Choose one to see what is asked, on whose word, and to note what an office told you.</p>
      ) : (
        <>
          {about === 'errand' && Object.hasOwn(answer.practice.errands, id) ? <Another key={id} errand={id} /> : null}
          <Answered of={rules}>{({ rows }) => <Rules key={id} rows={rows} />}</Answered>
        </>
      )}
    </section>
  );
}
