import { useState } from 'react';
import type { AnotherPaperAnswer } from '../../../core/desk/contract/practice-answers.ts';
import type { ErrorShape } from '../../../core/vocabulary/errors.ts';
import type { Errand, Practice } from '../../../core/vocabulary/practice.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { Choices } from '../../kit/Choices.tsx';
import { Field } from '../../kit/Field.tsx';
import { OnTheirWord, type TheirWord } from '../../kit/OnTheirWord.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { useDay } from '../../state/session.ts';
import { KindPicker } from '../table/KindPicker.tsx';
import { type KindOption, kindOptions } from '../table/kind-search.ts';

const uses = [
  { id: 'leave', title: 'they keep it' },
  { id: 'show', title: 'they look at it and give it back' },
] as const;

const mostTold = 3;

/** What was noted, and what other errands say otherwise since. */
function notedInWords({ title, elsewhere }: AnotherPaperAnswer): string {
  const more = elsewhere.length - mostTold;
  return [
    `Noted: they want ${title} too.`,
    ...elsewhere.slice(0, mostTold).map((say) => `Elsewhere too: ${say}`),
    ...(more > 0 ? [`And ${more} more; look at what your other errands ask for.`] : []),
  ].join(' ');
}

/** Kinds the errand asks for outright are not offered: more copies of them are another rule. */
function kindsFor(practice: Practice, { needs }: Errand): readonly KindOption[] {
  const asked = new Set(
    needs.flatMap(({ kinds: [kind], when, optional }) => (when === undefined && !optional ? [kind] : [])),
  );
  return kindOptions(practice, []).filter(({ id }) => !asked.has(id));
}

interface WhichProps {
  readonly practice: Practice;
  readonly errand: Errand;
  readonly said: Said;
  readonly onSaid: (said: Said) => void;
}

interface Said {
  readonly kind?: string | undefined;
  /** Of a paper that has no kind yet. */
  readonly title: string;
  readonly from?: string | undefined;
}

/** One of the kinds, or a title of its own with whoever gives it out. */
function Which({ practice, errand, said, onSaid }: WhichProps) {
  const offices = Object.values(practice.offices).map(({ id, title }) => ({ id, title }));
  return (
    <>
      <KindPicker
        label="Which paper do they want?"
        kinds={kindsFor(practice, errand)}
        kind={said.kind}
        onKind={(kind) => onSaid({ ...said, kind })}
      />
      {said.kind === 'other' ? (
        <>
          <Field label="What they call it" value={said.title} onChange={(title) => onSaid({ ...said, title })} />
          <Pick
            label="Who gives it out"
            options={offices.toSorted((a, b) => a.title.localeCompare(b.title))}
            value={said.from}
            onChange={(from) => onSaid({ ...said, from })}
            placeholder="Not known yet; ask them"
          />
        </>
      ) : null}
    </>
  );
}

interface FormProps {
  readonly practice: Practice;
  readonly errand: Errand;
  readonly onDone: () => void;
}

/** What they want, what becomes of it, who said so and when; what was typed stays where it can't be noted. */
function AnotherPaperForm({ practice, errand, onDone }: FormProps) {
  const [said, setSaid] = useState<Said>({ title: '' });
  const [use, setUse] = useState<string>('leave');
  const [copies, setCopies] = useState('1');
  const [word, setWord] = useState<TheirWord>({ who: '', day: useDay(), note: '' });
  const { who, day, note } = word;
  const [trouble, setTrouble] = useState<ErrorShape>();
  const own = said.kind === 'other';
  const wanted = own ? said.title.trim() !== '' : said.kind !== undefined;
  const count = /^[1-9]\d?$/.test(copies.trim()) ? Number(copies) : undefined;
  const ready = wanted && who.trim() !== '' && day !== undefined && count !== undefined;
  const act = async (): Promise<void> => {
    if (!ready) return;
    const paper = own ? { title: said.title.trim(), from: said.from } : { paper: said.kind };
    const told = { who: who.trim(), day, ...(note.trim() === '' ? {} : { note: note.trim() }) };
    const how = { use: uses.find(({ id }) => id === use)?.id ?? 'leave', copies: count } as const;
    const reply = await perform(
      'another-paper',
      { errand: errand.id, ...paper, ...how, ...told },
      {
        say: notedInWords,
        quiet: true,
      },
    );
    if (reply.ok) onDone();
    else setTrouble(reply.error);
  };
  return (
    <form
      className="amend-form"
      onSubmit={(event) => {
        event.preventDefault();
        void act();
      }}
    >
      <Which practice={practice} errand={errand} said={said} onSaid={setSaid} />
      <div className="amend-pair">
        <Choices label="What becomes of it" options={uses} value={use} onChange={setUse} />
        <Field
          label="Copies"
          value={copies}
          onChange={setCopies}
          wrong={count === undefined ? 'A whole number from 1 to 99.' : undefined}
        />
      </div>
      <OnTheirWord said={word} onSaid={(change) => setWord({ ...word, ...change })} />
      {trouble === undefined ? null : <Trouble error={trouble} />}
      <div>
        <Button as="stamp" submit disabled={!ready}>
          Note that they want it
        </Button>
      </div>
    </form>
  );
}

/** "They want another paper too": noted for one errand, on the word of a named person. */
export function AnotherPaperSlip({ errand, onClose }: { readonly errand: string; readonly onClose: () => void }) {
  const practice = useAnswer('practice', {});
  return (
    <Slip title="They want another paper too" open wide onClose={onClose}>
      <Answered of={practice}>
        {({ practice: rules }) => {
          const rule = rules.errands[errand];
          return rule === undefined ? null : (
            <>
              <p className="slab">{rule.title}</p>
              <AnotherPaperForm practice={rules} errand={rule} onDone={onClose} />
              <p className="small pencil">
                From now on it is asked for there, in the packet too, on that word. You find it under Local practice and
                can take it back.
              </p>
            </>
          );
        }}
      </Answered>
    </Slip>
  );
}
