import type { WordsAnswer } from '../../../core/desk/contract/practice-answers.ts';
import type { OfficeWordRow } from '../../../core/desk/contract/screen-answers.ts';
import { dayInWords } from '../../../core/vocabulary/days.ts';
import { Answered } from '../../kit/Answered.tsx';
import { Button } from '../../kit/Button.tsx';
import { useAnswer } from '../../state/asked.ts';
import { perform } from '../../state/doing.ts';
import { Amend } from './Amend.tsx';
import { HandingOn } from './HandingOn.tsx';
import './practice.css';

/** One word: the rule in plain words, what was and what is, who said so and when. */
function Word({ word }: { readonly word: OfficeWordRow }) {
  const { change, remark } = word;
  const unsay = (): void =>
    void perform('unsay', { word: word.word }, { say: `Taken back: ${change.rule}. The rule before it stands.` });
  return (
    <li>
      <div>
        <p className="small pencil">{change.rule}</p>
        <p>
          {change.was === undefined ? null : (
            <>
              <del>{change.was}</del>{' '}
            </>
          )}
          <strong>{change.now}</strong>
        </p>
        {remark === undefined ? null : <p>“{remark}”</p>}
        <p className="small pencil">
          {word.who}, {word.officeTitle}, {dayInWords(word.day)}
        </p>
      </div>
      <Button as="word" small onPress={unsay} label={`Take back: ${change.rule}, ${change.now}`}>
        take back
      </Button>
    </li>
  );
}

/** Which files the rules come from; those that come with Lotfile are one thing to whoever reads this. */
function layersInWords(layers: WordsAnswer['layers']): string {
  const local = layers.filter(({ sort }) => sort === 'local').map(({ name }) => name);
  const common = layers.filter(({ sort }) => sort === 'common').length;
  const over = local.length === 0 ? 'no file of your county laid over it yet' : `and laid over it ${local.join(', ')}`;
  return `Common practice (${common} files that come with Lotfile), ${over}.`;
}

/** The rules in force on this lot, where they come from, and what offices said otherwise. */
export function PracticeScreen() {
  const practice = useAnswer('practice', {});
  const words = useAnswer('practice-words', {});
  return (
    <>
      <header>
        <div>
          <h1>Local practice</h1>
          <p className="lead">
            What each office asks for, and on whose word. Rules of the trade in general come with Lotfile; your county’s
            own are laid over them.
          </p>
        </div>
      </header>
      <Answered of={words}>
        {({ words: said, layers }) => (
          <section className="practice-block">
            <h2>What offices told you</h2>
            {said.length === 0 ? (
              <p className="pencil">
                Nothing yet. When a clerk says otherwise, note it below: name and day make it a rule here.
              </p>
            ) : (
              <ul className="practice-words">
                {said.map((word) => (
                  <Word key={word.word} word={word} />
                ))}
              </ul>
            )}
            <p className="small pencil">{layersInWords(layers)}</p>
          </section>
        )}
      </Answered>
      <Answered of={practice}>{(answer) => <Amend answer={answer} />}</Answered>
      <Answered of={words}>{({ layers }) => <HandingOn any={layers.some(({ sort }) => sort !== 'common')} />}</Answered>
    </>
  );
}
