import { cutLeft } from '../../../vocabulary/cut-left.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import { pagesOf } from '../../../vocabulary/page-picks.ts';
import type { Practice } from '../../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../../context.ts';
import type { KeepAnswer } from '../../contract/answers.ts';
import { paperToKeep, requests } from '../../contract/requests.ts';
import type { ReadCut } from '../../contract/table-answers.ts';
import { keepPapers } from '../keeping.ts';
import { readerOf } from './companions.ts';
import { readPapers } from './read.ts';

/** A scan kept as all the papers it looks like, each by its pages, as reading suggests them. */

/** One paper the scan looks like, with those of its pages that no paper holds yet. */
interface Part extends ReadCut {
  readonly name: string;
}

function placeOf({ name, pages }: Part): string {
  return `${name}, ${/[-,]/.test(pages) ? 'pages' : 'page'} ${pages}`;
}

/** Of the papers a scan looks like, those still to be kept. */
async function partsLeft(ticket: string, cuts: readonly ReadCut[], at: AtLot): Promise<readonly Part[]> {
  const { path, name } = at.tickets.look(ticket);
  const { sha } = await readerOf(at).look(path, name);
  const used = new Set(at.lot.usesOf(sha).flatMap(({ pages }) => pages));
  return cuts.flatMap((cut) => {
    const pages = pagesOf(cut.pages, Number.MAX_SAFE_INTEGER, name) ?? [];
    return cutLeft({ ...cut, name }, pages, used) ?? [];
  });
}

/** What only the person can say of a part; undefined where nothing is left to say. */
function toBeSaid(part: Part, { papers }: Practice): LotfileError | undefined {
  const { kind, name, pages, title } = part;
  const each = kind === undefined ? undefined : papers[kind]?.each;
  if (kind !== undefined && each === undefined) return undefined;
  const by = `keep ${JSON.stringify(name)} --page ${pages} --kind ${kind ?? 'KIND'}`;
  return kind === undefined
    ? new LotfileError('wrong use', 'What it is could not be read.', { about: placeOf(part), next: `Say it: ${by}.` })
    : new LotfileError('wrong use', `"${title}" is kept for one ${each} at a time.`, {
        about: placeOf(part),
        next: `Say which: ${by} --subject NAME.`,
      });
}

/** Nothing of a scan is left to be kept by its parts: it looks like one paper, or all of them are kept. */
function refuseWhole(cuts: readonly ReadCut[], name: string): never {
  const kept = cuts.length > 1;
  const say = kept ? `All papers that "${name}" looks like are kept already.` : `"${name}" looks like one paper.`;
  const next = kept
    ? 'Keep other pages of it one by one: keep FILE --page 4-5 --kind KIND.'
    : 'Keep it as what it is: keep FILE --kind KIND; or some of its pages: --page 1-2.';
  throw new LotfileError('wrong use', say, { about: name, next });
}

export const keepParts = onLot(requests['keep-parts'], async ({ file }, at): Promise<KeepAnswer> => {
  const { name } = at.tickets.look(file);
  const { cuts } = await readPapers({ files: [file], pages: [] }, at);
  const parts = cuts.length < 2 ? [] : await partsLeft(file, cuts, at);
  if (parts.length === 0) refuseWhole(cuts, name);
  const practice = at.lot.practice();
  const told = parts.flatMap((part) => {
    const error = toBeSaid(part, practice);
    return error === undefined ? [] : [{ file: placeOf(part), error: error.toJSON() }];
  });
  const ready = parts.filter((part) => toBeSaid(part, practice) === undefined);
  const papers = ready.map(({ kind, pages }) => paperToKeep.parse({ files: [file], pages: [pages], kind }));
  const { refused, ...answer } =
    papers.length === 0 ? { kept: [], refused: [], notes: [] } : await keepPapers({ papers }, at);
  return { ...answer, refused: [...refused, ...told] };
});
