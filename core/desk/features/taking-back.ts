import { dayInWords } from '../../vocabulary/days.ts';
import { LotfileError } from '../../vocabulary/errors.ts';
import { onLot } from '../context.ts';
import { requests } from '../contract/requests.ts';
import { editionNamed, kindTitle, known, paperNamed, subjectNamed } from '../named.ts';
import { acted } from './record-card.ts';

/** What was said can be ended, answered or unsaid, each as one undoable act. */

export const answerComment = onLot(requests['answer-comment'], ({ comment, text, day, evidence: said }, at) => {
  const id = Number(comment);
  const found = at.lot.comments().find((each) => each.id === id);
  if (found === undefined) {
    throw new LotfileError('not found', `There is no comment "${comment}".`, {
      about: comment,
      next: 'See what they sent back: with-offices.',
    });
  }
  const title = `Answered comment ${found.number}: ${text}`;
  const named = { view: at.lot.view(), practice: at.lot.practice(), day: at.day };
  const evidence = said === undefined ? undefined : editionNamed(named, said).edition.id;
  return acted(at, title, () => at.lot.answerComment(id, { text, day: day ?? at.day, evidence }));
});

export const appliesAgain = onLot(requests['applies-again'], ({ paper: said }, at) => {
  const practice = at.lot.practice();
  const { kind, title, subject, notApplicable } = paperNamed(at.lot.view(), said);
  if (notApplicable === undefined) {
    throw new LotfileError('wrong use', `Nobody said that "${kindTitle(practice, kind)}" doesn't apply.`, {
      about: title,
      next: 'See the papers and their states: papers.',
    });
  }
  return acted(at, `${title} applies again`, () => {
    at.lot.setNotApplicable({ kind, title, subject }, undefined);
  });
});

export const endFirm = onLot(requests['end-firm'], ({ firm, day }, at) => {
  const subject = subjectNamed(at.lot.view(), firm);
  if (subject.from !== undefined && day < subject.from) {
    throw new LotfileError('wrong use', `${subject.title} can't end before it began.`, {
      about: subject.title,
      next: `It began on ${dayInWords(subject.from)}: see which of the two days is right.`,
    });
  }
  return acted(at, `${subject.title} ended on ${dayInWords(day)}`, () => at.lot.endSubject(subject.id, day));
});

export const correctFirm = onLot(requests['correct-firm'], ({ firm: said, name, trade, from, to, clear }, at) => {
  const subject = subjectNamed(at.lot.view(), said);
  const firm = name ?? subject.firm ?? subject.title;
  const now = {
    sort: subject.sort,
    firm,
    trade: trade ?? subject.trade,
    from: clear.includes('from') ? undefined : (from ?? subject.from),
    to: clear.includes('to') ? undefined : (to ?? subject.to),
  };
  if (now.from !== undefined && now.to !== undefined && now.to < now.from) {
    throw new LotfileError('wrong use', `${firm} can't end before it began.`, {
      about: firm,
      next: `It began on ${dayInWords(now.from)}: see which of the two days is right.`,
    });
  }
  const title = now.trade === undefined ? firm : `${firm}, ${now.trade}`;
  return acted(at, `Corrected ${subject.title}: ${title}`, () => at.lot.changeSubject(subject.id, { ...now, title }));
});

export const removeFirm = onLot(requests['remove-firm'], ({ firm }, at) => {
  const subject = subjectNamed(at.lot.view(), firm);
  return acted(at, `Removed ${subject.title}`, () => at.lot.removeSubject(subject.id));
});

export const endIdentity = onLot(requests['end-identity'], ({ sort, text, day }, at) => {
  const found = at.lot.view().identities.find((each) => each.sort === sort && each.text === text);
  if (found?.from !== undefined && day < found.from) {
    throw new LotfileError('wrong use', `"${text}" can't end before it began.`, {
      about: text,
      next: `It began on ${dayInWords(found.from)}: see which of the two days is right.`,
    });
  }
  return acted(at, `The ${sort} "${text}" was used until ${dayInWords(day)}`, () =>
    at.lot.endIdentity({ sort, text }, day),
  );
});

export const removeEvent = onLot(requests['remove-event'], ({ event, day }, at) => {
  const { title } = known(at.lot.practice().events, event, 'event');
  return acted(at, `Took back: ${title}, ${dayInWords(day)}`, () => at.lot.removeEvent({ event, day }));
});

export const renameLot = onLot(requests['rename-lot'], ({ title }, at) =>
  acted(at, `Renamed the lot: ${title}`, () => at.lot.setTitle(title)),
);
