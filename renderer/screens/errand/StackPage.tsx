import { useMemo } from 'react';
import type { PlanAnswer } from '../../../core/desk/contract/answers.ts';
import { Button } from '../../kit/Button.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { Trouble } from '../../kit/Trouble.tsx';
import type { Sight } from './errand-model.ts';
import { openStack, turnTo, useErrandView } from './errand-store.ts';
import { aspectOf, fileSortInWords, firstOfTab, type Leaf } from './leaves.ts';
import { SheetList } from './SheetList.tsx';
import { SheetView } from './SheetView.tsx';

interface StackProps {
  readonly plan: PlanAnswer;
  readonly leaves: readonly Leaf[];
  readonly at: number;
}

/** Rough height of a tab against the stack's own: more tabs than fit one below the other stand in further ranks. */
const tabsInOneRank = 19;

/** The dividers' tabs at the stack's left edge, in staggered ranks as in a real binder. */
function Tabs({ plan, leaves, at }: StackProps) {
  const shown = plan.tabs.filter(({ tab, seeTab }) => seeTab === undefined && firstOfTab(leaves, tab) >= 0);
  const ranks = Math.max(1, Math.ceil(shown.length / tabsInOneRank));
  const pitch = 100 / Math.max(shown.length + ranks - 1, tabsInOneRank);
  return (
    <div className="errand-tabs" style={{ width: `${ranks * 1.75}rem` }}>
      {shown.map(({ tab, title, place }, index) => (
        <button
          key={tab}
          type="button"
          tabIndex={-1}
          className={`errand-tab ${place.replaceAll(' ', '-')}`}
          data-errand-tab={tab}
          aria-current={leaves[at]?.tab === tab ? 'true' : undefined}
          aria-label={`Tab ${tab}: ${title}`}
          title={title}
          style={{ top: `${index * pitch}%`, right: `${(index % ranks) * 1.75}rem` }}
          onClick={() => turnTo(firstOfTab(leaves, tab))}
        >
          {tab}
        </button>
      ))}
    </div>
  );
}

/** The sheet on top, the next ones fanned out under it. */
function Fan({ leaves, at }: StackProps) {
  const leaf = leaves[at];
  if (leaf === undefined) return null;
  const below = Math.min(3, leaf.of - leaf.n);
  const aspect = aspectOf(leaf);
  const share = Math.min(1, aspect / (8.5 / 11));
  const start = at - (leaf.n - 1);
  return (
    <div className={aspect > 1 ? 'errand-fan lying' : 'errand-fan'}>
      {[3, 2, 1].map((step) => (
        <span key={step} className={step <= below ? `errand-under under-${step}` : 'errand-under gone'} />
      ))}
      <div className="errand-top" style={{ width: `${share * 100}%` }}>
        <SheetView key={leaf.key} leaf={leaf} onSheet={(sheet) => turnTo(start + sheet)} />
      </div>
    </div>
  );
}

function Turning({ plan, leaves, at }: StackProps) {
  const leaf = leaves[at];
  if (leaf === undefined) return null;
  const file = plan.files[leaf.file];
  return (
    <div className="errand-turning">
      <Button small disabled={at === 0} onPress={() => turnTo(at - 1)} label="‹ Before: the sheet before">
        ‹ Before
      </Button>
      <Button small disabled={at === leaves.length - 1} onPress={() => turnTo(at + 1)} label="Next ›: the next sheet">
        Next ›
      </Button>
      <Button small onPress={openStack}>
        Full size
      </Button>
      <p className="small" aria-live="polite">
        Sheet {leaf.n} of {leaf.of}: {leaf.title}
        <br />
        <span className="pencil">
          {file === undefined ? '' : fileSortInWords(file)}
          {plan.draft && file?.of === 'assembled' ? ', DRAFT' : ''}
        </span>
      </p>
    </div>
  );
}

function Files({ plan, leaves, at }: StackProps) {
  const here = leaves[at]?.file ?? 0;
  if (plan.files.length < 2) return <p className="small mono errand-file-name">{plan.files[0]?.name}</p>;
  return (
    <Pick
      label="File"
      options={plan.files.map((file, index) => ({
        id: String(index),
        title: `${fileSortInWords(file)}: ${file.of === 'untouched' ? file.title : file.name}`,
      }))}
      value={String(here)}
      onChange={(id) => {
        const first = leaves.findIndex(({ file }) => String(file) === id);
        if (first >= 0) turnTo(first);
      }}
    />
  );
}

/** The list of one file's sheets, joined to the stack over all files. */
function FileSheets({ leaves, at }: StackProps) {
  const file = leaves[at]?.file ?? 0;
  const own = useMemo(() => leaves.filter((leaf) => leaf.file === file), [leaves, file]);
  const start = leaves.findIndex((leaf) => leaf.file === file);
  return <SheetList leaves={own} at={at - start} onTurn={(index) => turnTo(start + index)} />;
}

/** The right page: the packet as it will be, laid out but not assembled. */
export function StackPage({ sight, leaves }: { readonly sight: Sight; readonly leaves: readonly Leaf[] }) {
  const wanted = useErrandView((state) => state.at);
  const { plan, planTrouble } = sight;
  const at = Math.min(wanted, leaves.length - 1);
  if (planTrouble !== undefined) {
    return (
      <div className="errand-right">
        <Trouble error={planTrouble} />
      </div>
    );
  }
  if (plan === undefined || at < 0) {
    return (
      <div className="errand-right">
        <p className="waiting">
          {plan === undefined ? 'Laying out the packet ...' : 'No sheets: this errand is made without papers.'}
        </p>
      </div>
    );
  }
  const parts = { plan, leaves, at };
  return (
    <section className="errand-right" aria-label="The packet as it will be">
      <div className="errand-stack">
        <Tabs {...parts} />
        <Fan {...parts} />
      </div>
      <Turning {...parts} />
      <Files {...parts} />
      <FileSheets {...parts} />
    </section>
  );
}
