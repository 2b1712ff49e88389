import { createHash } from 'node:crypto';
import { join } from 'node:path';
import * as z from 'zod';
import { dayInWords, type RequestAnswer } from '../../../core/desk/door.ts';
import { readPrivate, writePrivate } from '../../host/private-file.ts';
import type { OpenedLot } from '../../host/window-desk.ts';
import type { Desktop } from '../desktop-model.ts';

type Soon = RequestAnswer<'today'>['soon'][number];

const told = z.object({ told: z.array(z.string()) });
const remembered = 500;
const lookEvery = 6 * 60 * 60 * 1000;

function keyOf(title: string, { kind, sort, by }: Soon): string {
  return createHash('sha256')
    .update(JSON.stringify([title, kind, sort, by]))
    .digest('hex')
    .slice(0, 24);
}

function oneLine({ title, say, by }: Soon): string {
  return by === undefined ? say : `${title}: by ${dayInWords(by)}. ${say}`;
}

/** What is worth a notice: what an office would refuse or question. */
function isPressing({ weight }: Soon): boolean {
  return weight === 'refused' || weight === 'questioned';
}

/** Says what lapses soon: once for each paper and day, never for the sample. */
export class Notices {
  readonly #desktop: Desktop;
  readonly #file: string;
  readonly #open = new Map<string, OpenedLot>();

  constructor(desktop: Desktop) {
    this.#desktop = desktop;
    this.#file = join(desktop.host.places.config, 'notices.json');
  }

  opened(opened: OpenedLot): Promise<void> {
    if (opened.sample) return Promise.resolve();
    this.#open.set(opened.lot, opened);
    return this.#look(opened);
  }

  async lookAll(): Promise<void> {
    for (const opened of this.#open.values()) await this.#look(opened);
  }

  async #look({ lot, title }: OpenedLot): Promise<void> {
    const { host } = this.#desktop;
    try {
      const { amiss, soon } = await host.desk.ask('today', {}, { lot });
      // What ends before it is needed stands among what is amiss, with its day.
      this.#say(title, [...amiss.filter(({ by }) => by !== undefined), ...soon].filter(isPressing));
    } catch {
      // Closed since, or in trouble that the window tells about.
      this.#open.delete(lot);
    }
  }

  #say(title: string, soon: readonly Soon[]): void {
    const before = readPrivate(this.#file, told)?.told ?? [];
    const fresh = soon.filter((row) => !before.includes(keyOf(title, row)));
    const [first, ...rest] = fresh;
    if (first === undefined) return;
    const more = rest.length === 0 ? '' : ` And ${rest.length} more.`;
    const { parts, windows } = this.#desktop;
    const notice = new parts.Notification({ title, body: `${oneLine(first)}${more}` });
    notice.on('click', () => windows.show());
    notice.show();
    writePrivate(this.#file, { told: [...before, ...fresh.map((row) => keyOf(title, row))].slice(-remembered) });
  }
}

export function notices(desktop: Desktop): void {
  const all = new Notices(desktop);
  desktop.host.onOpened((opened) => void all.opened(opened));
  setInterval(() => void all.lookAll(), lookEvery).unref();
}
