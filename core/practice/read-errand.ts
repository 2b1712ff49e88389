import type { Errand } from '../vocabulary/practice.ts';
import { eachRule, Fields, titleOf } from './fields.ts';
import { readBasis } from './read-basis.ts';
import { readWhen } from './read-condition.ts';
import { readDelivery } from './read-delivery.ts';
import { readBefore, readNeed } from './read-need.ts';
import { subjectSorts } from './read-paper.ts';
import type { Rule } from './read-small-rules.ts';
import type { Scope } from './scope.ts';

/** One errand with its needs in the order of the file. */
export function readErrand({ id, tree, at }: Rule, scope: Scope): Errand {
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
    basis: readBasis(fields.get('basis'), scope),
  };
  fields.close();
  return errand;
}
