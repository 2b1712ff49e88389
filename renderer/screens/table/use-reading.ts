import type { TableItem } from '../../../core/desk/contract/screen-answers.ts';
import { type Answered, useAnswer } from '../../state/asked.ts';
import type { Draft } from './table-state.ts';

/** What stands on the files of a draft, read for its kind once that is said. Nothing is asked while one still arrives. */
export function useReading(draft: Draft, items: readonly TableItem[]): Answered<'read'> {
  const files = draft.files.flatMap((file) => items.filter(({ item }) => item === file));
  const readable = files.length > 0 && files.every(({ arriving, sort }) => !arriving && sort !== 'other');
  const pages = draft.files.map((file) => draft.picks[file] ?? '');
  const kind = draft.kind === 'other' ? undefined : draft.kind;
  return useAnswer(
    'read',
    readable
      ? {
          files: files.map(({ ticket }) => ticket),
          pages: pages.some((each) => each !== '') ? pages : [],
          kind,
          password: draft.opened,
        }
      : undefined,
  );
}
