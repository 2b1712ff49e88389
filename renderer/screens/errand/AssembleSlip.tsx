import { useState } from 'react';
import type { PlanAnswer } from '../../../core/desk/contract/answers.ts';
import type { Finding } from '../../../core/vocabulary/finding.ts';
import type { Delivery } from '../../../core/vocabulary/practice.ts';
import { things } from '../../../core/vocabulary/verdict.ts';
import { Button } from '../../kit/Button.tsx';
import { Field } from '../../kit/Field.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { Tick } from '../../kit/Tick.tsx';
import { perform } from '../../state/doing.ts';
import { usePlace } from '../../state/place.ts';
import { against } from './Against.tsx';
import type { Sight } from './errand-model.ts';
import { lay, putAway } from './errand-store.ts';
import { bytesInWords, bytesOf, fileSortInWords } from './leaves.ts';

const ways: Readonly<Record<Delivery['way'], string>> = {
  counter: 'at the counter',
  upload: 'through their upload page',
  'e-mail': 'by e-mail',
  'site binder': 'in the binder on the site',
  lender: 'to the lender',
};

/** "at the counter, 2 sets, one file". */
function deliveryInWords({ way, sets, files, fileLimit }: Delivery): string {
  return [
    ways[way],
    ...(sets > 1 ? [`${sets} sets`] : []),
    files === 'one file' ? 'one file' : 'each paper a file of its own',
    ...(fileLimit === undefined ? [] : [`no file over ${bytesInWords(fileLimit)}`]),
  ].join(', ');
}

function FileRows({ plan }: { readonly plan: PlanAnswer }) {
  return (
    <table className="errand-files">
      <thead>
        <tr>
          <th scope="col">What</th>
          <th scope="col">File</th>
          <th scope="col">Pages</th>
          <th scope="col">About</th>
        </tr>
      </thead>
      <tbody>
        {plan.files.map((file) => (
          <tr key={file.name}>
            <td>{fileSortInWords(file)}</td>
            <td className="mono">{file.name}</td>
            <td>{file.of === 'assembled' ? file.sheets.length : 'as it is'}</td>
            <td>{bytesInWords(bytesOf(file))}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** As many as the errand shows before it folds. */
const weighing = 8;

/** What they may object to and what has to be asked, heaviest first, as the errand tells it. */
function Weighing({ sight }: { readonly sight: Sight }) {
  const heavy = against(sight).filter(({ weight }) => weight === 'questioned' || weight === 'ask first');
  if (heavy.length === 0) return null;
  const rest = heavy.length - weighing;
  return (
    <div className="errand-says">
      <h3>What they may say, worst first</h3>
      <ul>
        {heavy.slice(0, weighing).map(({ say, weight, sort }) => (
          <li key={`${sort} ${say}`}>
            {say} <span className="pencil small">{weight}</span>
          </li>
        ))}
        {rest <= 0 ? null : <li className="pencil">{things(rest, 'thing')} more: they stand with the errand.</li>}
      </ul>
    </div>
  );
}

function Says({ title, findings }: { readonly title: string; readonly findings: readonly Finding[] }) {
  if (findings.length === 0) return null;
  return (
    <div className="errand-says">
      <h3>{title}</h3>
      <ul>
        {findings.map(({ say }) => (
          <li key={say}>{say}</li>
        ))}
      </ul>
    </div>
  );
}

/** What the cover promises to bring later, once one goes without it. */
function ToFollow({ plan }: { readonly plan: PlanAnswer }) {
  const titles = plan.tabs.flatMap(({ place, title }) => (place === 'missing' ? [title] : []));
  if (titles.length === 0) return null;
  return (
    <p>
      The cover will say that these are to follow: <strong>{titles.join(', ')}</strong>.
    </p>
  );
}

interface AnywayProps {
  readonly refused: readonly Finding[];
  readonly going: boolean;
  readonly onGoing: (going: boolean) => void;
  readonly reason: string;
  readonly onReason: (reason: string) => void;
}

/** Going although something is missing: said with a reason; what can't be undone stays refused. */
function Anyway({ refused, going, onGoing, reason, onReason }: AnywayProps) {
  const final = refused.filter((finding) => finding.final);
  if (refused.length === 0) return null;
  return (
    <>
      <div className="errand-draft">
        <p>
          <strong>DRAFT</strong> will stand in the margin of every sheet: they would turn you away for{' '}
          {things(refused.length, 'reason')}.
        </p>
        <Says title="Why" findings={refused.filter((finding) => !finding.final)} />
        <Says title="This can’t be undone later, and no decision clears it" findings={final} />
      </div>
      {final.length === refused.length ? null : (
        <Tick checked={going} onChange={onGoing}>
          Go although something is missing
        </Tick>
      )}
      {going ? (
        <Field
          label="Why you go all the same"
          value={reason}
          onChange={onReason}
          lines
          autoFocus
          hint={
            final.length > 0
              ? 'It is kept with the packet. What can’t be undone stays refused, and the sheets stay DRAFT.'
              : 'It is kept with the packet. DRAFT goes, and the cover lists what is to follow.'
          }
        />
      ) : null}
    </>
  );
}

/** What will be made, before it is made. */
export function AssembleSlip({ sight }: { readonly sight: Sight }) {
  const { plan, target } = sight;
  const [going, setGoing] = useState(false);
  const [reason, setReason] = useState('');
  if (plan === undefined) return null;
  const refused = plan.findings.filter(({ weight }) => weight === 'refused');
  const override = going && reason.trim() !== '' ? { override: reason.trim() } : {};
  const make = async (): Promise<void> => {
    putAway();
    const from = usePlace.getState();
    const reply = await perform('assemble', { ...target, ...override }, { long: `Assembling ${plan.title}` });
    if (reply.ok && usePlace.getState() === from) lay({ slip: 'made', made: reply.answer });
  };
  const bytes = plan.files.reduce((sum, file) => sum + bytesOf(file), 0);
  return (
    <Slip
      title={`Assemble: ${plan.title}`}
      open
      wide
      onClose={putAway}
      foot={
        <Button as="stamp" disabled={going && reason.trim() === ''} onPress={() => void make()}>
          {plan.draft && !going ? 'Assemble as a DRAFT' : 'Assemble'}
        </Button>
      }
    >
      <div className="errand-slip">
        <p>
          For {plan.recipient}, {deliveryInWords(plan.delivery)}. {things(plan.files.length, 'file')}, about{' '}
          {bytesInWords(bytes)} together.
        </p>
        <FileRows plan={plan} />
        <Anyway refused={refused} going={going} onGoing={setGoing} reason={reason} onReason={setReason} />
        {going ? <ToFollow plan={plan} /> : null}
        <Weighing sight={sight} />
        {plan.notes.length === 0 ? null : (
          <div className="errand-told">
            <h3>Good to know</h3>
            <ul className="small">
              {plan.notes.map((note) => (
                <li key={note}>{note}</li>
              ))}
            </ul>
          </div>
        )}
      </div>
    </Slip>
  );
}
