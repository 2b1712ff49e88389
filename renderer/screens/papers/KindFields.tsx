import type { PagesAnswer } from '../../../core/desk/contract/screen-answers.ts';
import type { Subject } from '../../../core/vocabulary/lot.ts';
import type { Practice } from '../../../core/vocabulary/practice.ts';
import { Field } from '../../kit/Field.tsx';
import { KindPicker } from '../table/KindPicker.tsx';
import { kindOptions } from '../table/kind-search.ts';
import { SubjectField } from '../table/SubjectField.tsx';
import { asKind, type Correction } from './correction.ts';

export interface KindFieldsProps {
  readonly paper: PagesAnswer;
  readonly practice: Practice;
  readonly subjects: readonly Subject[];
  readonly now: Correction;
  readonly onNow: (now: Correction) => void;
}

/** What it is, whose, and what it is called where it has no kind. */
export function KindFields({ paper, practice, subjects, now, onNow }: KindFieldsProps) {
  const each = practice.papers[now.kind]?.each;
  return (
    <div className="fact-grid">
      <KindPicker
        kinds={kindOptions(practice, [])}
        kind={now.kind}
        onKind={(kind) => onNow(asKind(now, paper, { kind: kind ?? paper.kind, practice, subjects }))}
      />
      {now.kind === 'other' ? (
        <Field label="What it is called" value={now.title} onChange={(title) => onNow({ ...now, title })} />
      ) : null}
      {each === undefined ? null : (
        <SubjectField
          each={each}
          subjects={subjects}
          subject={now.subject}
          onSubject={(subject) => onNow({ ...now, subject })}
        />
      )}
    </div>
  );
}

/** Facts belong to a kind: those the new one knows stay, and the rest is asked for once it is noted. */
export function OtherKindNote() {
  return (
    <p className="small pencil">
      What that kind knows too stays as it is noted; the rest is told, and undo brings it back. Correct what else is
      printed on it once this is noted.
    </p>
  );
}
