import { conditionAt } from '../readiness/condition-at.ts';
import { questionsOf } from '../readiness/truth.ts';
import type { FactValue } from '../vocabulary/facts.ts';
import type { FormBox, FormRule } from '../vocabulary/forms.ts';
import type { LotView, Subject, SubjectId } from '../vocabulary/lot.ts';
import type { QuestionId } from '../vocabulary/practice.ts';
import type { ValueSeat } from './form-model.ts';
import { printValue } from './print-value.ts';
import { type SourceCase, sourceValue } from './source-value.ts';

/** A box as the mapping means it, with its rows counted out, and for whom it is filled. */
export interface NamedBox {
  readonly box: FormBox;
  readonly subject: SubjectId | undefined;
  /** A row that no firm stands for. */
  readonly spare?: boolean | undefined;
}

/** What a mapping says for a box, before anybody looks at the form itself. */
export type BoxText =
  | {
      readonly is: 'text';
      readonly text: string;
      readonly facts: readonly FactValue[];
      readonly from: string;
      readonly seat: ValueSeat;
    }
  | { readonly is: 'ticked'; readonly ticked: boolean; readonly from: string; readonly seat: ValueSeat }
  /** `open` where something optional is not known, rather than known to be none. */
  | { readonly is: 'empty'; readonly from: string; readonly open: boolean; readonly seat?: ValueSeat | undefined }
  | { readonly is: 'missing' | 'wrong sort'; readonly from: string; readonly say: string; readonly seat: ValueSeat };

/** Firms on site on the day or later, in the order they were noted. */
export function firmsOn({ subjects }: LotView, day: string): readonly Subject[] {
  return subjects.filter(({ sort, to }) => sort === 'engagement' && (to === undefined || to >= day));
}

/** Every box of a form: the single ones, then the rows with {n} counted out. */
export function namedBoxes(form: FormRule, { at, subject }: SourceCase): readonly NamedBox[] {
  const single = form.boxes.map((box): NamedBox => ({ box, subject }));
  const firms = firmsOn(at.lot, at.day);
  const rows = form.rows.flatMap(({ room, boxes }) =>
    Array.from({ length: room }, (_, n) =>
      boxes.map((box): NamedBox => {
        const field = box.field.replaceAll('{n}', String(n + 1));
        const firm = firms[n];
        if (firm !== undefined || box.do === 'by hand' || box.do === 'leave')
          return { box: { ...box, field }, subject: firm?.id };
        return { box: { do: 'leave', field, why: 'no firm for this row' }, subject: undefined, spare: true };
      }),
    ).flat(),
  );
  return [...single, ...rows];
}

function isOpen({ answers }: LotView, question: QuestionId): boolean {
  const answer = Object.hasOwn(answers, question) ? answers[question] : undefined;
  return answer === undefined || answer.sort === "don't know yet";
}

function tickText(when: Extract<FormBox, { do: 'tick' }>['when'], { at }: SourceCase): BoxText {
  const truth = conditionAt(at, when);
  const questions = questionsOf(when);
  const open = questions.find((id) => isOpen(at.lot, id));
  const question = (truth === 'unknown' ? open : undefined) ?? questions[0];
  const asked = question === undefined ? undefined : at.practice.questions[question]?.ask;
  const from = asked === undefined ? 'what is noted of the lot' : `your answer to "${asked}"`;
  const seat: ValueSeat = question === undefined ? { at: 'events' } : { at: 'question', question };
  if (truth === 'unknown') return { is: 'missing', from, say: `Not known yet: ${from}.`, seat };
  return { is: 'ticked', ticked: truth, from, seat };
}

function plain(text: string): string {
  return text.normalize('NFC').trim().toLowerCase();
}

function inFormWords(text: string, words: Readonly<Record<string, string>>): string {
  const found = Object.entries(words).find(([said]) => plain(said) === plain(text));
  return found?.[1] ?? text;
}

function writtenText(box: Extract<FormBox, { do: 'write' }>, given: SourceCase): BoxText {
  const parts: string[] = [];
  const facts: FactValue[] = [];
  const froms: string[] = [];
  let seat: ValueSeat | undefined;
  let open = false;
  for (const source of box.sources) {
    const found = sourceValue(given, source);
    if (found.is === 'none') continue;
    if (found.is === 'missing') {
      if (!box.optional) return { is: 'missing', from: found.from, say: found.say, seat: found.seat };
      open = true;
      continue;
    }
    const printed = printValue(found.value, box.as);
    if ('wrong' in printed) return { is: 'wrong sort', from: found.from, say: printed.wrong, seat: found.seat };
    parts.push(inFormWords(printed.text, box.words));
    facts.push(found.value);
    froms.push(found.from);
    seat ??= found.seat;
  }
  const text = parts.filter((part) => part !== '').join(box.between);
  if (text === '' || seat === undefined) return { is: 'empty', from: 'there is none to write', open };
  return { is: 'text', text, facts, from: [...new Set(froms)].join(' and '), seat };
}

/** What the mapping says for one box as of the day; undefined for boxes nobody fills. */
export function boxText({ box, subject }: NamedBox, given: SourceCase): BoxText | undefined {
  switch (box.do) {
    case 'by hand':
    case 'leave':
      return undefined;
    case 'tick':
      return tickText(box.when, given);
    case 'write':
      return writtenText(box, { at: given.at, subject });
  }
}
