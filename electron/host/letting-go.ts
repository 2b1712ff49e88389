import { rmSync } from 'node:fs';
import type { RequestName } from '../../core/desk/door.ts';

interface Handed {
  readonly path: string;
  /** The window that handed it over. */
  readonly window: string;
}

function part(value: unknown, key: string): unknown {
  return typeof value === 'object' && value !== null ? Reflect.get(value, key) : undefined;
}

function texts(value: unknown): readonly string[] {
  return (Array.isArray(value) ? value : [value]).filter((one) => typeof one === 'string');
}

function isEmpty(value: unknown): boolean {
  return !Array.isArray(value) || value.length === 0;
}

/** Papers that were all kept, whole: a refused one may be tried again (with its password), and a scan split further. */
function keptWhole(argument: unknown, answer: unknown): readonly string[] {
  const papers: unknown = part(argument, 'papers');
  if (!isEmpty(part(answer, 'refused')) || !Array.isArray(papers)) return [];
  return papers.every((paper) => isEmpty(part(paper, 'pages')))
    ? papers.flatMap((paper) => texts(part(paper, 'files')))
    : [];
}

/** The tickets a request that was answered has no more use for: what was in their files lies in the lot now. */
function usedUp(name: RequestName, argument: unknown, answer: unknown): readonly string[] {
  switch (name) {
    case 'lay-down':
    case 'record-files':
      return texts(part(argument, 'files'));
    case 'record':
      return texts(part(argument, 'file'));
    case 'restore':
      return texts(part(argument, 'bundle'));
    case 'merge':
      // Looking into a bundle comes before taking over from it.
      return part(answer, 'act') === undefined ? [] : texts(part(argument, 'bundle'));
    case 'keep':
      return keptWhole(argument, answer);
    default:
      return [];
  }
}

/**
 * Files that came as bytes and lie with the host until somebody needs them no more: the request that takes them in has
 * answered, or the window they came from is gone. Files of the person's own disk are never among them.
 */
export class LettingGo {
  readonly #files = new Map<string, Handed>();
  readonly #gone = new Set<string>();
  readonly #forget: (ticket: string) => void;

  /** @param forget tells the desk that a ticket is no good any more. */
  constructor(forget: (ticket: string) => void) {
    this.#forget = forget;
  }

  add(ticket: string, handed: Handed): void {
    this.#files.set(ticket, handed);
  }

  answered(name: RequestName, argument: unknown, answer: unknown): void {
    for (const ticket of usedUp(name, argument, answer)) this.#letGo(ticket);
  }

  /** A window went away; what it handed over goes with the next `rest`. */
  windowGone(window: string): void {
    this.#gone.add(window);
  }

  /** Nothing is at work that may still read them. */
  rest(): void {
    for (const [ticket, { window }] of [...this.#files]) if (this.#gone.has(window)) this.#letGo(ticket);
    this.#gone.clear();
  }

  #letGo(ticket: string): void {
    const handed = this.#files.get(ticket);
    if (handed === undefined) return;
    this.#files.delete(ticket);
    this.#forget(ticket);
    rmSync(handed.path, { force: true });
  }
}
