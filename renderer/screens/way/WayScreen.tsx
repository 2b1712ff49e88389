import { useMemo } from 'react';
import { Answered } from '../../kit/Answered.tsx';
import { useAnswer } from '../../state/asked.ts';
import { addressOf } from '../../state/place.ts';
import type { ScreenProps } from '../screen-props.ts';
import type { WaySources } from './model.ts';
import { modelOf } from './read-way.ts';
import { Sheet } from './Sheet.tsx';
import { TitleStrip } from './TitleStrip.tsx';
import { WayList } from './WayList.tsx';
import './way.css';

function Ways({ list }: { readonly list: boolean }) {
  return (
    <nav className="way-ways" aria-label="How the way is shown">
      <a href={addressOf('way')} aria-current={list ? undefined : 'page'}>
        Drawn
      </a>
      <a href={addressOf('way', 'list')} aria-current={list ? 'page' : undefined}>
        As a list
      </a>
    </nav>
  );
}

function Shown({ sources, list }: { readonly sources: WaySources; readonly list: boolean }) {
  const { way, papers, practice, subjects, target } = sources;
  const model = useMemo(
    () => modelOf({ way, papers, practice, subjects, target }),
    [way, papers, practice, subjects, target],
  );
  return (
    <>
      <TitleStrip way={way} model={model} />
      {list ? <WayList model={model} /> : <Sheet model={model} />}
    </>
  );
}

/** The way: every errand dated, drawn like a plan-and-profile sheet or told as a list. */
export function WayScreen({ rest }: ScreenProps) {
  const way = useAnswer('way', {});
  const papers = useAnswer('papers', { wanted: true }).answer?.papers;
  const practice = useAnswer('practice', {}).answer?.practice;
  const card = useAnswer('read-lot', {}).answer;
  const list = rest[0] === 'list';
  return (
    <>
      <header>
        <div>
          <h1>The way</h1>
          <p className="lead">
            Every errand from raw land to an insured house, on the earliest day it could be gone on.
          </p>
        </div>
        <Ways list={list} />
      </header>
      <Answered of={way}>
        {(answer) =>
          papers === undefined || practice === undefined || card === undefined ? (
            <p className="waiting">Reading ...</p>
          ) : (
            <Shown
              list={list}
              sources={{ way: answer, papers, practice, subjects: card.subjects, target: card.target }}
            />
          )
        }
      </Answered>
    </>
  );
}
