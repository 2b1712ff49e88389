import { port } from '../client/port.ts';
import { changed } from './asked.ts';
import { noteProgress } from './doing.ts';
import { takeUp } from './lot.ts';
import { useLot } from './session.ts';

/** The host counts as back once the lot is open again: what is asked before that would find none. */
async function backAgain(mine: number, now: () => number): Promise<void> {
  await takeUp();
  if (mine === now()) useLot.setState({ hostHere: true });
}

/** Hears what the host tells unasked, for as long as the window is open. */
export function beginHearing(): () => void {
  let turn = 0;
  return port.on((event) => {
    switch (event.event) {
      case 'progress':
        if (event.told.id !== undefined) noteProgress(event.told.id, event.told);
        if (event.told.request === 'sample-lot') noteProgress('sample-lot', event.told);
        return;
      case 'changed':
        if (event.told.lot === useLot.getState().handle) changed(event.told.act, 'event');
        return;
      case 'host':
        turn += 1;
        if (event.told.here) void backAgain(turn, () => turn);
        else useLot.setState({ hostHere: false });
        return;
      case 'go':
        window.location.hash = event.told.to;
    }
  });
}
