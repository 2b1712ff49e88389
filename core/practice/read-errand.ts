import type { Booking, Errand } from '../vocabulary/practice.ts';
import { visitOutcomes } from '../vocabulary/practice.ts';
import { eachRule, Fields, titleOf } from './fields.ts';
import { readBasis, readWords } from './read-basis.ts';
import { readWhen } from './read-condition.ts';
import { readDelivery } from './read-delivery.ts';
import { readBefore, readNeed } from './read-need.ts';
import { subjectSorts } from './read-paper.ts';
import type { Rule } from './read-small-rules.ts';
import type { Scope } from './scope.ts';
import { isTimeOfDay } from './values.ts';

/** An errand, and whether it is one here at all: `exists: no` only offers it. */
export interface ReadErrand {
  readonly errand: Errand;
  readonly exists: boolean;
}

/** `{ahead: 1 working day, until: "14:00"}`; just the span was spelled out before layers were laid over each other. */
function readBooking(fields: Fields): Booking | undefined {
  const tree = fields.get('book');
  if (tree === undefined) return undefined;
  const { scope, about } = fields;
  const inner = new Fields(scope, tree, { name: `"book" of ${about}`, at: tree.at });
  if (!inner.has('ahead')) inner.missing('ahead');
  const until = inner.text('until');
  if (until !== undefined && !isTimeOfDay(until)) {
    scope.problems.add(tree.at, `"until" of "book" of ${about} is a time of day like "14:00", not "${until}".`);
  }
  const booking = { ahead: inner.span('ahead') ?? {}, ...(until === undefined ? {} : { until }) };
  inner.close();
  return booking;
}

/** What only some errands say: the second visit's fee, the site kit, the booking, the words of the outcome. */
function readVisitRules(fields: Fields): Pick<Errand, 'againFee' | 'onSite' | 'book' | 'outcomes'> {
  const [againFee, book] = [fields.money('again_fee'), readBooking(fields)];
  const [onSite, outcomes] = [fields.texts('on_site'), fields.words('outcomes', visitOutcomes)];
  return {
    ...(againFee === undefined ? {} : { againFee }),
    ...(book === undefined ? {} : { book }),
    ...(onSite.length === 0 ? {} : { onSite }),
    ...(outcomes.length === 0 ? {} : { outcomes }),
  };
}

/** One errand with its needs in the order of the file. */
export function readErrand({ id, tree, at }: Rule, scope: Scope): ReadErrand {
  const fields = new Fields(scope, tree, { name: `errand "${id}"`, at });
  if (!fields.has('office')) fields.missing('office');
  const needs = eachRule(fields.get('needs'), scope, (need, value, place) =>
    readNeed({ id: need, tree: value, at: place }, id, scope),
  );
  const before = eachRule(fields.get('before'), scope, (rule, value, place) =>
    readBefore({ id: rule, tree: value, at: place }, id, scope),
  );
  if (fields.has('only_needs')) {
    scope.problems.add(at, `errand "${id}" says both "needs" and "only_needs": keep one.`);
    fields.get('only_needs');
  }
  const basis = readBasis(fields.get('basis'), scope);
  const said = readWords(fields, basis);
  const errand: Errand = {
    id,
    title: fields.text('title') ?? titleOf(id),
    packetTitle: fields.text('packet_title'),
    office: fields.ref('office', 'office') ?? '',
    stretch: fields.text('stretch') ?? 'other errands',
    when: readWhen(fields),
    each: fields.word('each', subjectSorts),
    inspection: fields.yes('inspection', false),
    restarts: fields.refs('restarts', 'kind'),
    fee: fields.money('fee'),
    feeNote: fields.text('fee_note'),
    ...readVisitRules(fields),
    takes: fields.lead('takes'),
    bring: fields.texts('bring'),
    ask: fields.texts('ask'),
    needs: Object.values(needs),
    before: Object.values(before),
    yields: fields.refs('yields', 'kind'),
    causes: fields.refs('causes', 'event'),
    deliver: readDelivery(fields.get('deliver'), id, scope),
    caution: fields.text('caution'),
    appear: fields.text('appear'),
    appointment: fields.text('appointment'),
    ...(fields.yes('after_target', false) ? { afterTarget: true } : {}),
    basis,
    ...(said === undefined ? {} : { said }),
  };
  const exists = fields.yes('exists', true);
  fields.close();
  return { errand, exists };
}
