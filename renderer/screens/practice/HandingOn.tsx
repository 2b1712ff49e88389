import { useState } from 'react';
import { FileTrigger } from 'react-aria-components/FileTrigger';
import type { EffectAnswer } from '../../../core/desk/contract/screen-answers.ts';
import { port } from '../../client/port.ts';
import { Button } from '../../kit/Button.tsx';
import { EffectList } from '../../kit/EffectList.tsx';
import { Slip } from '../../kit/Slip.tsx';
import { fetchAnswer, perform } from '../../state/doing.ts';
import { saveFile } from '../../state/saving.ts';
import { tellTrouble } from '../../state/telling.ts';

/** A neighbour's file that was looked into; nothing is changed yet. */
interface Looked {
  readonly file: string;
  readonly name: string;
  readonly effect: EffectAnswer;
}

async function save(): Promise<void> {
  const made = await fetchAnswer('export-practice', {});
  if (made !== undefined) await saveFile(made);
}

async function lookInto(file: File): Promise<Looked | undefined> {
  const [offered] = await port.offer([file]);
  if (offered === undefined) return undefined;
  if (!offered.ok) {
    tellTrouble(offered.error);
    return undefined;
  }
  const { ticket, name } = offered.answer;
  const effect = await fetchAnswer('practice-effect', { file: ticket });
  return effect === undefined ? undefined : { file: ticket, name, effect };
}

function LayOverSlip({ looked, onClose }: { readonly looked: Looked; readonly onClose: () => void }) {
  const act = async (): Promise<void> => {
    const reply = await perform('lay-over', { file: looked.file }, { say: `Laid over: ${looked.name}` });
    if (reply.ok) onClose();
  };
  return (
    <Slip
      title="A neighbour’s amendments"
      open
      wide
      onClose={onClose}
      foot={
        <Button as="stamp" onPress={() => void act()}>
          Lay them over
        </Button>
      }
    >
      <p className="slab">{looked.name}</p>
      <EffectList effect={looked.effect} />
      <p className="small pencil">
        They stand on the word of whoever told your neighbour, with name and day. Ask whether it is still so, and
        whether it goes for your lot; What was done takes them off again.
      </p>
    </Slip>
  );
}

/** Amendments as one file: out to a neighbour, in from one. */
export function HandingOn({ any }: { readonly any: boolean }) {
  const [looked, setLooked] = useState<Looked>();
  const choose = async (files: readonly File[]): Promise<void> => {
    const [file] = files;
    if (file !== undefined) setLooked(await lookInto(file));
  };
  return (
    <section className="practice-block">
      <h2>From and to a neighbour</h2>
      <p>
        What your county asks is in one file, to be read by anybody: no paper and nothing of your lot is in it, only the
        rules, on whose word, and the day.
      </p>
      <div className="practice-acts">
        <Button disabled={!any} onPress={() => void save()}>
          Save the amendments for a neighbour
        </Button>
        <FileTrigger acceptedFileTypes={['.yaml', '.yml']} onSelect={(files) => void choose([...(files ?? [])])}>
          <Button>Look into a neighbour’s amendments ...</Button>
        </FileTrigger>
      </div>
      {looked === undefined ? null : <LayOverSlip looked={looked} onClose={() => setLooked(undefined)} />}
    </section>
  );
}
