import { useMemo } from 'react';
import type { PlanAnswer } from '../../../core/desk/contract/answers.ts';
import { closeReader, type FinishedFile, turnTo, useErrandView } from './errand-store.ts';
import { fileSortInWords, type Leaf, leavesOf, leavesOfFinished } from './leaves.ts';
import { Reader } from './Reader.tsx';

/** The plan's sheets at full size: every file of the packet, in reading order. */
export function StackReader({ plan }: { readonly plan: PlanAnswer }) {
  const at = useErrandView((state) => state.at);
  const leaves = useMemo(() => leavesOf(plan), [plan]);
  const about = ({ title, file }: Leaf): string => {
    const own = plan.files[file];
    return own === undefined ? title : `${title} (${fileSortInWords(own)})`;
  };
  return (
    <Reader
      title={plan.draft ? `${plan.title}, DRAFT` : plan.title}
      leaves={leaves}
      start={at}
      about={about}
      lead={({ file }, sheet) => leaves.findIndex((leaf) => leaf.file === file) + sheet}
      onClose={(last) => {
        turnTo(last);
        closeReader();
      }}
    />
  );
}

/** A file that was assembled, page by page as it stands on the disk. */
export function FinishedReader({ file }: { readonly file: FinishedFile }) {
  const leaves = useMemo(() => leavesOfFinished(file), [file]);
  return <Reader title={file.name} leaves={leaves} start={0} about={() => file.name} onClose={closeReader} />;
}
