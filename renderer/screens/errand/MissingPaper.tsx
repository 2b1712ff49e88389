import { dayWithWeekday } from '../../../core/vocabulary/days.ts';
import { Button } from '../../kit/Button.tsx';
import { addressOf, go } from '../../state/place.ts';
import type { NeedRow } from './errand-model.ts';
import { lay } from './errand-store.ts';

/** What can be done about a paper that isn't there: add it, go and get it, or say that it isn't asked here. */
export function MissingPaper({ need, form }: { readonly need: NeedRow; readonly form: boolean }) {
  const { kind, title, paper, remedy } = need;
  const away = need.state === "doesn't apply";
  return (
    <div className="errand-missing">
      {form && !away ? (
        <Button
          small
          onPress={() => lay({ slip: 'form', need: need.need, subject: need.subject })}
          label={`Fill the form: ${title}`}
        >
          Fill the form
        </Button>
      ) : null}
      {away ? null : (
        <Button small onPress={() => go('table', 'as', kind)} label={`I have it: add it: ${title}`}>
          I have it: add it
        </Button>
      )}
      <Button
        as="word"
        small
        onPress={() => lay({ slip: 'not here', kind, paper, title, again: away })}
        label={away ? `It applies after all: ${title}` : `It doesn’t apply here: ${title}`}
      >
        {away ? 'It applies after all' : 'It doesn’t apply here'}
      </Button>
      {remedy === undefined ? null : (
        <span>
          <a href={addressOf('errand', remedy.errand)}>{remedy.title}</a>
          <span className="pencil">
            {' '}
            brings it ({remedy.office}
            {remedy.earliest === undefined ? '' : `, from ${dayWithWeekday(remedy.earliest)}`})
          </span>
        </span>
      )}
    </div>
  );
}
