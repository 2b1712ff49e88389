import { port } from '../client/port.ts';
import { changed } from './asked.ts';
import { noteProgress } from './doing.ts';
import { takeUp } from './lot.ts';
import { useLot } from './session.ts';

/** Hears what the host tells unasked, for as long as the window is open. */
export function beginHearing(): () => void {
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
        useLot.setState({ hostHere: event.told.here });
        if (event.told.here) void takeUp();
        return;
      case 'go':
        window.location.hash = event.told.to;
    }
  });
}
