import type { LotCard } from '../../../core/desk/contract/answers.ts';
import { Answered } from '../../kit/Answered.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import { Boxes } from './Boxes.tsx';
import { Firms } from './Firms.tsx';
import { Happened } from './Happened.tsx';
import './lot.css';
import { LotHead } from './LotHead.tsx';
import { Names } from './Names.tsx';

function firstSay(left: number) {
  if (left === 0)
    return (
      <>
        All answered. See <a href={addressOf('today')}>what you can do today</a>.
      </>
    );
  return <>{left} to answer. “I don’t know yet” is an answer; each says where to find it.</>;
}

function Card({ card }: { readonly card: LotCard }) {
  const first = card.questions.filter((question) => question.first);
  const rest = card.questions.filter((question) => !question.first);
  const left = first.filter(({ answer }) => answer === undefined).length;
  return (
    <>
      <LotHead card={card} />
      <Boxes title="The first boxes" say={firstSay(left)} questions={first} />
      <Names identities={card.identities} />
      <Firms subjects={card.subjects} />
      <Happened events={card.events} />
      <Boxes title="The rest, when they matter" say="Findings will ask for them by name." questions={rest} />
    </>
  );
}

/** The lot's record card. */
export function LotScreen() {
  const card = useAnswer('read-lot', {});
  return <Answered of={card}>{(answer) => <Card card={answer} />}</Answered>;
}
