import { useState } from 'react';
import { Button } from '../../kit/Button.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { perform } from '../../state/doing.ts';
import { asSaid, RecordFields, unsaid } from './RecordFields.tsx';
import { useRecords } from './records-state.ts';

function many(count: number): string {
  return count === 1 ? 'one' : `all ${count}`;
}

/** The same said of several at once; what is left empty stays as it is on each. */
function TogetherSlip({ records, onClose }: { readonly records: readonly string[]; readonly onClose: () => void }) {
  const [said, setSaid] = useState(unsaid);
  const change = asSaid(said);
  const nothing = Object.values(change).every((value) => value === undefined);
  const keep = async (): Promise<void> => {
    const reply = await perform(
      'correct-records',
      { records: [...records], ...change },
      { say: `Said of ${many(records.length)}.` },
    );
    if (!reply.ok) return;
    useRecords.setState({ ticked: [] });
    onClose();
  };
  return (
    <Slip
      title={`Say of ${many(records.length)}`}
      open
      onClose={onClose}
      foot={
        <Button as="stamp" disabled={nothing} onPress={() => void keep()}>
          Say it of {many(records.length)}
        </Button>
      }
    >
      <p className="small pencil">What is left empty stays as it is.</p>
      <RecordFields said={said} onSaid={setSaid} money words={false} />
    </Slip>
  );
}

/** What can be done with those ticked. */
export function TickedBar({ shown }: { readonly shown: readonly string[] }) {
  const ticked = useRecords((state) => state.ticked);
  const [saying, say] = useState(false);
  const chosen = ticked.filter((each) => shown.includes(each));
  const remove = async (): Promise<void> => {
    const reply = await perform(
      'remove-records',
      { records: [...chosen] },
      { say: `Taken off the list: ${many(chosen.length)}.` },
    );
    if (reply.ok) useRecords.setState({ ticked: [] });
  };
  return (
    <div className="records-ticked" role="status">
      {chosen.length === 0 ? null : (
        <>
          <span>{chosen.length} chosen</span>
          <Button small onPress={() => say(true)}>
            Say where and whose
          </Button>
          <Button small onPress={() => void remove()}>
            Take off the list
          </Button>
          {chosen.length === shown.length ? null : (
            <Button as="word" small onPress={() => useRecords.setState({ ticked: shown.slice(0, 1000) })}>
              choose all {shown.length}
            </Button>
          )}
          <Button as="word" small onPress={() => useRecords.setState({ ticked: [] })}>
            none
          </Button>
        </>
      )}
      {saying && chosen.length > 0 ? <TogetherSlip records={chosen} onClose={() => say(false)} /> : null}
    </div>
  );
}
