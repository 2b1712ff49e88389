import type { AskedQuestion } from '../../../core/desk/contract/answers.ts';
import { Slip } from '../../kit/Slip.tsx';
import { QuestionForm } from './QuestionForm.tsx';

export interface QuestionSlipProps {
  readonly question: AskedQuestion;
  /** The block of boxes it stands in. */
  readonly among: readonly AskedQuestion[];
  readonly onTurn: (question: string) => void;
  readonly onClose: () => void;
}

/** The nearest box after this one that nobody answered yet, from the top again after the last. */
function nextOpen(question: AskedQuestion, among: readonly AskedQuestion[]): AskedQuestion | undefined {
  const at = among.findIndex(({ id }) => id === question.id);
  return [...among.slice(at + 1), ...among.slice(0, at)].find(({ answer }) => answer === undefined);
}

/** The slip that walks from one unanswered box to the next; an answer given before is corrected and the slip closes. */
export function QuestionSlip({ question, among, onTurn, onClose }: QuestionSlipProps) {
  const next = question.answer === undefined ? nextOpen(question, among) : undefined;
  const at = among.findIndex(({ id }) => id === question.id);
  return (
    <Slip title={question.ask} open onClose={onClose}>
      <QuestionForm
        key={question.id}
        question={question}
        goesOn={next !== undefined}
        onDone={() => (next === undefined ? onClose() : onTurn(next.id))}
      />
      {among.length < 2 ? null : (
        <p className="small pencil">
          Box {at + 1} of {among.length}.{' '}
          {next === undefined ? '' : 'What you note leads on to the next one without an answer.'}
        </p>
      )}
    </Slip>
  );
}
