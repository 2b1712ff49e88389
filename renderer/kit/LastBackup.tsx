import type { LastBackup as Backup } from '../../core/desk/contract/answers.ts';
import { dayWithWeekday } from '../../core/vocabulary/days.ts';
import { sizeInWords } from '../screens/papers/state-words.ts';

/** When the lot was last backed up, and what that file is called. */
export function LastBackup({ backup }: { readonly backup: Backup | undefined }) {
  if (backup === undefined) return <>Not backed up from this computer yet.</>;
  const { day, name, bytes, whole } = backup;
  return (
    <>
      Last backed up {dayWithWeekday(day)}: {name}, {sizeInWords(bytes)}
      {whole ? ', every file read back.' : '; not all of it was whole.'}
    </>
  );
}
