import { useState } from 'react';
import { Choices } from '../../kit/Choices.tsx';
import { Pick } from '../../kit/Pick.tsx';
import { arranged, groupings, type Wish } from './arrange.ts';
import { Gates } from './Gates.tsx';
import type { WayModel } from './model.ts';
import { WayTable } from './WayTable.tsx';
import './way-list.css';

const all = 'all';

function pickFrom(titles: readonly string[], every: string) {
  return [
    { id: all, title: every },
    ...[...new Set(titles)].filter((title) => title !== '').map((id) => ({ id, title: id })),
  ];
}

function Tools({
  model,
  wish,
  onWish,
}: {
  readonly model: WayModel;
  readonly wish: Wish;
  readonly onWish: (wish: Wish) => void;
}) {
  const { stations } = model;
  return (
    <div className="way-tools list">
      <Choices
        label="Group by"
        options={groupings.map((id) => ({ id, title: id }))}
        value={wish.grouping}
        onChange={(id) => onWish({ ...wish, grouping: groupings.find((each) => each === id) ?? 'stretch' })}
      />
      <Pick
        label="Stretch of the way"
        options={pickFrom(model.stretches, 'the whole way')}
        value={wish.stretch ?? all}
        onChange={(id) => onWish({ ...wish, stretch: id === all ? undefined : id })}
      />
      <Pick
        label="Office"
        options={pickFrom(stations.map(({ row }) => row.office).toSorted(), 'every office')}
        value={wish.office ?? all}
        onChange={(id) => onWish({ ...wish, office: id === all ? undefined : id })}
      />
    </div>
  );
}

/** The same way for those who prefer reading. */
export function WayList({ model }: { readonly model: WayModel }) {
  const [wish, setWish] = useState<Wish>({ grouping: 'stretch', order: { by: 'number', down: false } });
  const groups = arranged(model, wish);
  const shown = groups.reduce((sum, { stations }) => sum + stations.length, 0);
  return (
    <div className="way-list">
      <Tools model={model} wish={wish} onWish={setWish} />
      <p className="unseen" role="status">
        {shown} of {model.stations.length} errands shown
      </p>
      {shown === 0 ? <p>No errand of that stretch goes to that office.</p> : null}
      <WayTable groups={groups} model={model} order={wish.order} onOrder={(order) => setWish({ ...wish, order })} />
      <Gates model={model} />
      {model.aside.length === 0 ? null : (
        <section>
          <h2>Doesn’t apply here</h2>
          <p className="pencil">{model.aside.map(({ title }) => title).join(', ')}.</p>
        </section>
      )}
    </div>
  );
}
