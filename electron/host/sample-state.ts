import type { Desk } from '../../core/desk/desk.ts';
import { LotfileError } from '../../core/desk/door.ts';
import type { WindowHolds } from './window-holds.ts';

export type SampleState = 'sound' | 'in use' | 'damaged';

/** Stands for a window while the sample is looked over, so that nobody closes it meanwhile. */
const looker = 'looking at the sample';

async function isSound(desk: Desk, lot: string): Promise<boolean> {
  const { problems } = await desk.ask('verify', {}, { lot });
  return problems.every(({ sort }) => sort === 'orphan');
}

/**
 * How the sample lot stands, looked at through the host's own desk: a window that opens it meanwhile shares it, rather
 * than being told that somebody has it. In use where a window has it open, or another program.
 */
export async function sampleState(desk: Desk, holds: WindowHolds, folder: string): Promise<SampleState> {
  try {
    const { lot } = await desk.ask('open-lot', { folder });
    if (holds.isOpen(lot)) return 'in use';
    holds.open(lot, looker);
    try {
      const sound = await isSound(desk, lot);
      holds.close(lot, looker);
      if (holds.isOpen(lot)) return 'in use';
      return sound ? 'sound' : 'damaged';
    } finally {
      holds.close(lot, looker);
      for (const idle of holds.takeIdle()) await desk.ask('close-lot', {}, { lot: idle });
    }
  } catch (error) {
    return LotfileError.from(error).code === 'lot busy' ? 'in use' : 'damaged';
  }
}
