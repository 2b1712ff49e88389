import { type ReactNode, useState } from 'react';
import { Button } from 'react-aria-components/Button';
import type { AskedQuestion } from '../../../core/desk/contract/answers.ts';
import { papersSay } from '../../../core/vocabulary/in-words.ts';
import { factInWords } from '../../../core/vocabulary/said-facts.ts';
import { QuestionSlip } from './QuestionSlip.tsx';

function Said({ question }: { readonly question: AskedQuestion }) {
  const { answer } = question;
  if (answer === undefined) return <span className="unsaid">answer</span>;
  if (answer.sort === "don't know yet") return <span className="unknown">don’t know yet</span>;
  return <span className="said">{factInWords(answer)}</span>;
}

export interface BoxesProps {
  readonly title: string;
  readonly say: ReactNode;
  readonly questions: readonly AskedQuestion[];
}

/** A block of the record card; each box opens its question. */
export function Boxes({ title, say, questions }: BoxesProps) {
  const [open, setOpen] = useState<string>();
  const asked = questions.find(({ id }) => id === open);
  return (
    <section className="lot-card">
      <header>
        <h2>{title}</h2>
        <p className="small">{say}</p>
      </header>
      <ul className="lot-boxes">
        {questions.map((question) => (
          <li key={question.id}>
            <Button className="lot-box" onPress={() => setOpen(question.id)}>
              <span className="ask">{question.ask}</span>
              <Said question={question} />
              {question.told.map(({ answer, say, papers }) => (
                <span key={answer} className="told">
                  {papersSay(papers, say)}
                </span>
              ))}
            </Button>
          </li>
        ))}
      </ul>
      {asked === undefined ? null : (
        <QuestionSlip question={asked} among={questions} onTurn={setOpen} onClose={() => setOpen(undefined)} />
      )}
    </section>
  );
}
