import { useState } from 'react';
import type { PlanTab } from '../../../core/packet/plan-model.ts';
import { Button } from '../../kit/Button.tsx';
import { FindingNote } from '../../kit/FindingNote.tsx';
import { Mark } from '../../kit/Mark.tsx';
import { addressOf } from '../../state/place.ts';
import { placeOf } from './Against.tsx';
import type { NeedRow, Sight } from './errand-model.ts';
import { lay, turnTo, useErrandView } from './errand-store.ts';
import { firstOfTab, type Leaf } from './leaves.ts';
import { MissingPaper } from './MissingPaper.tsx';
import { NeedDetails } from './NeedDetails.tsx';

interface NeedLineProps {
  readonly need: NeedRow;
  readonly sight: Sight;
  readonly tab: PlanTab | undefined;
  readonly leaves: readonly Leaf[];
  /** A finding between papers touches this one. */
  readonly disagrees: boolean;
}

/** "no. 26-114, issued 9 Mar 2026, good through 14 Mar 2028, 2 copies". */
function particulars({ number, revision, issued, goodThrough, copies, applies }: NeedRow): string {
  return [
    ...(applies === 'unknown' ? ['may not be asked of you: a question of the lot is open'] : []),
    ...(revision === '' ? [] : [`revision ${revision}`]),
    ...(number === '' ? [] : [`no. ${number}`]),
    ...(issued === '' ? [] : [issued]),
    ...(goodThrough === '' ? [] : [goodThrough]),
    ...(copies > 1 ? [`${copies} copies`] : []),
  ].join(' · ');
}

/** Beside a need, "not asked for" would read as "not wanted". */
function stateOfNeed(state: NeedRow['state']): string | undefined {
  return state === 'not asked for' ? 'still to get' : undefined;
}

function tabSay({ place, pages, seeTab }: PlanTab): string {
  if (seeTab !== undefined) return `with tab ${seeTab}`;
  switch (place) {
    case 'by hand':
      return 'in your hand';
    case 'missing':
      return 'missing';
    case 'to follow':
      return 'to follow';
    case 'beside':
      return 'its own file';
    case 'inside':
      return pages === 1 ? '1 page' : `${pages} pages`;
  }
}

/** The office hands out a form for it that can be filled here. */
function isForm({ need }: NeedRow, { answer }: Sight): boolean {
  return answer.errand.needs.find(({ id }) => id === need)?.fill !== undefined;
}

/** Turns to a sheet; where the stack lies below the needs, goes there. */
function showSheet(at: number): void {
  turnTo(at);
  const stack = document.querySelector('.errand-stack');
  const box = stack?.getBoundingClientRect();
  if (box !== undefined && (box.top > window.innerHeight || box.bottom < 0)) stack?.scrollIntoView({ block: 'start' });
}

function TabButton({
  tab,
  leaves,
  title,
}: {
  readonly tab: PlanTab;
  readonly leaves: readonly Leaf[];
  readonly title: string;
}) {
  const at = useErrandView((state) => state.at);
  const first = firstOfTab(leaves, tab.seeTab ?? tab.tab);
  const on = leaves[at]?.tab === tab.tab;
  const [heaviest] = tab.findings;
  const weight = (heaviest?.weight ?? 'none').replaceAll(' ', '-');
  if (first < 0) {
    return <span className={`errand-tab-word ${weight}`}>{tabSay(tab)}</span>;
  }
  return (
    <button
      type="button"
      className={`errand-tab-word ${weight}`}
      data-errand-line={tab.tab}
      data-weight={weight}
      aria-current={on ? 'true' : undefined}
      onClick={() => showSheet(first)}
    >
      <span className="unseen">Show the sheets of {title}, tab </span>
      <b>{tab.tab}</b>
      <span className="unseen">, </span>
      {tabSay(tab)}
    </button>
  );
}

interface NeedWordsProps {
  readonly need: NeedRow;
  readonly shown: boolean;
  readonly onShow: () => void;
  /** A form for it can be filled here. */
  readonly form: boolean;
}

function NeedWords({ need, shown, onShow, form }: NeedWordsProps) {
  const words = particulars(need);
  return (
    <span className="errand-need-words">
      {words === '' ? null : <span className="pencil">{words}</span>}{' '}
      <Button as="word" small onPress={onShow} label={`${shown ? 'Hide' : 'Show'} the rule: ${need.title}`}>
        {shown ? 'less' : 'the rule'}
      </Button>{' '}
      {form ? (
        <Button
          as="word"
          small
          onPress={() => lay({ slip: 'form', need: need.need, subject: need.subject })}
          label={`Fill the form: ${need.title}`}
        >
          fill the form
        </Button>
      ) : null}
    </span>
  );
}

function NeedNotes({ need: { need, findings } }: { readonly need: NeedRow }) {
  return (
    <div className="errand-notes">
      {findings.map((finding) => (
        <FindingNote
          key={`${finding.sort} ${finding.say}`}
          finding={finding}
          onOtherwise={() => lay({ slip: 'otherwise', about: need })}
        />
      ))}
    </div>
  );
}

/** One need: what, its mark, what is known of the paper, and in the margin what speaks against it. */
export function NeedLine({ need, sight, tab, leaves, disagrees }: NeedLineProps) {
  const [shown, show] = useState(false);
  const missing = need.edition === undefined;
  const form = isForm(need, sight);
  const telling = need.findings.length > 0;
  return (
    <li className={`errand-need${telling ? ' telling' : ''}`} data-place={placeOf(need)} tabIndex={-1}>
      <div className="errand-need-line">
        <span className="errand-need-title slab">
          {need.paper === undefined ? need.title : <a href={addressOf('papers', need.paper)}>{need.title}</a>}
        </span>
        <span className="errand-need-marks">
          <Mark word={need.state} say={stateOfNeed(need.state)} />
          {disagrees ? <Mark word="disagree" /> : null}
        </span>
        <NeedWords need={need} shown={shown} onShow={() => show(!shown)} form={form && !missing} />
        {tab === undefined ? null : <TabButton tab={tab} leaves={leaves} title={need.title} />}
      </div>
      {shown ? <NeedDetails need={need} sight={sight} /> : null}
      {telling ? <NeedNotes need={need} /> : null}
      {missing ? <MissingPaper need={need} form={form} /> : null}
    </li>
  );
}
