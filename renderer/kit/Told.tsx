import { takeBack } from '../state/doing.ts';
import { type Told as OneTold, onView, useSlips, useTelling } from '../state/telling.ts';
import { Button } from './Button.tsx';

function Notice({ told }: { readonly told: OneTold }) {
  const dismiss = useTelling((state) => state.dismiss);
  const undo = (): void => {
    dismiss(told.id);
    void takeBack(told.undo);
  };
  return (
    <div className={`notice settle${told.sort === 'trouble' ? ' trouble-told' : ''}`}>
      <div className="row">
        <p>{told.say}</p>
        <span>
          {told.instead === undefined ? null : <a href={told.instead.to}>{told.instead.say}</a>}
          {told.undo === undefined ? null : (
            <Button small onPress={undo} label={`Undo: ${told.say}`}>
              Undo
            </Button>
          )}{' '}
          <Button as="word" small onPress={() => dismiss(told.id)} label={`Put away: ${told.say}`}>
            put away
          </Button>
        </span>
      </div>
      {told.next === undefined ? null : <p className="small">{told.next}</p>}
    </div>
  );
}

/** What was told last, two at most, the newest on top. Stands on the sheet, and at the foot of whatever slip lies over it. */
export function Told({ on }: { readonly on: 'sheet' | 'slip' }) {
  const told = useTelling((state) => state.told);
  const covered = useSlips(({ open }) => open > 0);
  if (covered !== (on === 'slip')) return null;
  return onView(told, on).map((one) => <Notice key={one.id} told={one} />);
}
