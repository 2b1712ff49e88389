import { hostname } from 'node:os';
import { figures } from '../../figures/index.ts';
import { createLot, type Holder, openLot } from '../../store/index.ts';
import { type At, onDesk, onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { commonLayers } from '../templates.ts';

function holderOf(at: At): Holder {
  return { program: at.host.program, host: hostname(), pid: process.pid };
}

/** Making, opening and closing lot folders. */
export const newLot = onDesk(requests['new-lot'], async ({ folder, title, target, layers, on }, at) => {
  const { readPractice } = await import('../../practice/index.ts');
  const all = [...commonLayers(), ...layers];
  const practice = readPractice(all, { figures: Object.keys(figures) });
  const { path } = at.tickets.look(folder);
  const lot = createLot(path, { title, practice, layers: all, day: on ?? at.day, holder: holderOf(at) });
  if (target !== undefined) lot.setTarget(target);
  return { lot: at.register(lot), title, swept: 0 };
});

export const openTheLot = onDesk(requests['open-lot'], ({ folder }, at) => {
  const lot = openLot(at.tickets.look(folder).path, { holder: holderOf(at) });
  return { lot: at.register(lot), title: lot.view().title, swept: lot.sweep().length };
});

export const closeLot = onLot(requests['close-lot'], (_input, at) => {
  at.release();
  return { closed: true } as const;
});
