import { dayInWords } from '../../../vocabulary/days.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { NeedUse, Practice } from '../../../vocabulary/practice.ts';
import { type AtLot, onLot } from '../../context.ts';
import { requests } from '../../contract/requests.ts';
import { errandNamed, kindNamed, kindTitle, known } from '../../named.ts';
import { copiesInWords, useWords } from '../amend-need.ts';
import { askedOf } from '../asked.ts';
import { acted } from '../record-card.ts';
import { saidElsewhere } from './effect.ts';
import { named, withLayer } from './rule-rows.ts';

function paperSaid(
  {
    paper,
    title,
    from,
  }: { readonly paper?: string | undefined; readonly title?: string | undefined; readonly from?: string | undefined },
  practice: Practice,
): string | { readonly title: string; readonly from?: string | undefined } {
  if ((paper === undefined) === (title === undefined)) {
    throw new LotfileError('wrong use', 'Say which paper they want: one of the kinds, or the title of another.', {
      next: 'Name a kind (paper), or give it a title of its own (title), not both.',
    });
  }
  if (paper !== undefined) return kindNamed(practice, paper);
  return { title: title ?? '', from: from === undefined ? undefined : known(practice.offices, from, 'office').id };
}

/** What can't be asked for before it is there: the papers that come of the errand, and those that come after it. */
function refuseOwnYield(practice: Practice, errand: string, kind: string): void {
  if (practice.errands[errand]?.yields.includes(kind) !== true) return;
  throw new LotfileError('wrong use', `${kindTitle(practice, kind)} is what you bring home from this errand.`, {
    about: kind,
    next: 'Ask them which earlier paper they mean.',
  });
}

/** A paper the owner put aside would be asked for and not counted: that word of the owner's comes first. */
function refusePutAside(at: AtLot, kind: string): void {
  const papers = askedOf(at).lot.papers.filter((paper) => paper.kind === kind);
  const why = papers[0]?.notApplicable;
  if (why === undefined || papers.some(({ notApplicable }) => notApplicable === undefined)) return;
  const title = kindTitle(at.lot.practice(), kind);
  throw new LotfileError('wrong use', `You said that ${title} doesn’t apply here: ${why}`, {
    about: kind,
    next: 'Say first that it applies after all (applies-again), then note this.',
  });
}

/** "They want another paper too": a need more on one errand, on the word of a named person, on a day. */
export const anotherPaper = onLot(requests['another-paper'], async (said, at) => {
  const { anotherPaper: asked, kindTitled } = await import('../../../practice/index.ts');
  const before = at.lot.practice();
  const layers = at.lot.layers();
  const errand = errandNamed(before, said.errand);
  const paperOrTitle = paperSaid(said, before);
  // A title that a kind bears already is that kind, and refused like it.
  const paper =
    typeof paperOrTitle === 'string' ? paperOrTitle : (kindTitled(paperOrTitle.title, before) ?? paperOrTitle);
  if (typeof paper === 'string') {
    refuseOwnYield(before, errand.id, paper);
    refusePutAside(at, paper);
  }
  const { who, note, use, copies } = said;
  const day = said.day ?? at.day;
  const {
    need,
    kind,
    layer: written,
  } = asked({ errand: errand.id, paper, use, copies, who, day, note }, before, layers);
  const layer = named(written, layers);
  const about = { rule: `errands.${errand.id}.needs.${need}`, row: undefined, value: kind };
  const { practice, layers: all } = await withLayer(layers, layer, about);
  const title = kindTitle(practice, kind);
  const here = askedOf(at);
  const elsewhere = saidElsewhere({ before: here, after: { ...here, practice } }, errand.id).map(({ say }) => say);
  const now = wantedNow(practice, errand.id, need, title);
  const change = { rule: `${errand.title}, another paper`, was: `${title} was not asked for.`, now };
  const { act } = acted(at, `${who} said on ${dayInWords(day)}: ${errand.title} needs ${title} too`, () => {
    const word = { office: errand.office, who, day, said: note ?? now };
    at.lot.addOfficeWord({ ...word, layer: { ...layer, change, remark: note } });
    at.lot.setPractice({ practice, layers: all });
  });
  return { act, need, kind, title, elsewhere };
});

function wantedNow(practice: Practice, errand: string, need: string, title: string): string {
  const rule = practice.errands[errand]?.needs.find(({ id }) => id === need);
  const use: NeedUse = rule?.use ?? 'leave';
  return `They want ${title}: ${copiesInWords(rule?.copies ?? 1)}, ${useWords[use]}.`;
}
