import { useEffect, useRef } from 'react';
import { Button } from '../kit/Button.tsx';
import { Trouble } from '../kit/Trouble.tsx';
import { FirstScreen } from '../screens/first/FirstScreen.tsx';
import { screenNamed } from '../screens/screens.ts';
import { DropAnywhere } from '../screens/table/DropAnywhere.tsx';
import { leaveLot } from '../state/lot.ts';
import { addressOf, usePlace } from '../state/place.ts';
import { useLot } from '../state/session.ts';
import { Contents } from './Contents.tsx';
import { FindLine } from './FindLine.tsx';
import { Legend } from './Legend.tsx';
import { Notices } from './Notices.tsx';
import { TitleBlock } from './TitleBlock.tsx';

/** The page proper: one screen, its heading focused whenever the place changes, so that readers and keys follow. */
function Screen() {
  const { screen, rest } = usePlace();
  const lot = useLot((state) => state.key);
  const main = useRef<HTMLElement>(null);
  const at = [screen, ...rest].join('/');
  const before = useRef(at);
  useEffect(() => {
    if (before.current === at) return;
    before.current = at;
    window.scrollTo(0, 0);
    main.current?.focus({ preventScroll: true });
  }, [at]);
  const Shown = screenNamed(screen).show;
  return (
    <main className="screen" id="sheet" ref={main} tabIndex={-1}>
      <Shown key={`${lot} ${at}`} rest={rest} />
    </main>
  );
}

function Away() {
  return (
    <p className="away" role="alert">
      The Lotfile program has stopped answering. What you typed stays here. Start it again (npm start); this page goes
      on by itself.
    </p>
  );
}

function Book() {
  return (
    <div className="window">
      <div className="skip">
        <Button as="word" onPress={() => document.getElementById('sheet')?.focus()}>
          Skip to the sheet
        </Button>
      </div>
      <div className="margin">
        <p className="name">
          <a href={addressOf('today')}>Lotfile</a>
        </p>
        <Contents />
        <div className="foot">
          <TitleBlock />
          <div className="feet">
            <Button as="word" small onPress={leaveLot}>
              Another lot
            </Button>
            <Legend />
          </div>
        </div>
      </div>
      <div className="sheet">
        <FindLine />
        <Screen />
      </div>
    </div>
  );
}

/** The window: the first page until a lot is open, then the book. */
export function Frame() {
  const { handle, key, opening, trouble, hostHere, host } = useLot();
  const { lot } = usePlace();
  // The address decides which lot is shown: never one lot's book under another's address.
  const open = handle !== undefined && lot !== '' && lot === key;
  // Where the lot the address names could not be opened, what is told is about its folder.
  const named = open ? undefined : host?.lots.find((each) => each.key === lot);
  const changing = opening || (lot !== '' && lot !== key && trouble === undefined);
  return (
    <div className="whole">
      {hostHere ? null : <Away />}
      {trouble === undefined ? null : <Trouble error={trouble} folder={named?.folder} />}
      {changing ? <p className="screen waiting">Opening ...</p> : open ? <Book /> : <FirstScreen />}
      <DropAnywhere />
      <Notices />
    </div>
  );
}
