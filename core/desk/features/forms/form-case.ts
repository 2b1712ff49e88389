import type { FormReading } from '../../../forms/form-model.ts';
import { type FormCase, readBoxes } from '../../../forms/read-boxes.ts';
import { type Asked, indexLot, type Standpoint } from '../../../readiness/index.ts';
import { LotfileError } from '../../../vocabulary/errors.ts';
import type { FormRule } from '../../../vocabulary/forms.ts';
import type { SubjectId } from '../../../vocabulary/lot.ts';
import type { Errand, Need } from '../../../vocabulary/practice.ts';
import type { AtLot } from '../../context.ts';
import type { RequestInput } from '../../contract/requests.ts';
import { errandNamed, kindTitle, subjectNamed } from '../../named.ts';
import { askedOf } from '../asked.ts';
import { type FoundBlank, findBlank } from './find-blank.ts';

type Wanted = Pick<RequestInput<'fill-form'>, 'errand' | 'need' | 'subject' | 'blank'>;

/** An errand's form, with its mapping and the blank in the lot, as far as there are any. */
export interface FormAt {
  readonly asked: Asked;
  readonly standpoint: Standpoint;
  readonly errand: Errand;
  readonly need: Need;
  readonly kind: string;
  readonly subject: SubjectId | undefined;
  readonly id: string;
  readonly form: FormRule | undefined;
  readonly found: FoundBlank;
}

function needWith(errand: Errand, said: string | undefined): Need {
  const forms = errand.needs.filter(({ fill }) => fill !== undefined);
  const found = said === undefined ? forms : forms.filter(({ id }) => id === said);
  const [need] = found;
  const names = forms.map(({ id }) => id).join(', ');
  if (need === undefined) {
    throw new LotfileError(
      'wrong use',
      `"${errand.title}" asks for no form to fill${said === undefined ? '' : ` called "${said}"`}.`,
      {
        about: said ?? errand.id,
        next: names === '' ? 'Keep the paper it asks for as it is.' : `It has: ${names}.`,
      },
    );
  }
  if (found.length > 1) {
    throw new LotfileError('wrong use', `"${errand.title}" has ${found.length} forms.`, {
      next: `Say which: need ${names}.`,
    });
  }
  return need;
}

/** Looks up which form is meant, what is known of it, and where its blank lies. */
export async function formAt(wanted: Wanted, at: AtLot): Promise<FormAt> {
  const asked = askedOf(at);
  const errand = errandNamed(asked.practice, wanted.errand);
  const need = needWith(errand, wanted.need);
  const id = (need.fill ?? '').replace(/^forms\//, '');
  const form = asked.practice.forms?.[id];
  const subject = wanted.subject === undefined ? undefined : subjectNamed(asked.lot, wanted.subject).id;
  const found = await findBlank({ need, form, said: wanted.blank }, at);
  const kind = need.kinds[0] ?? '';
  return { asked, standpoint: indexLot(asked), errand, need, kind, subject, id, form, found };
}

/** A form nobody mapped yet has no boxes of its own: all of the blank's are unmapped. */
export function mappingOf({ form, id, kind, asked }: FormAt): FormRule {
  return (
    form ?? {
      id,
      title: kindTitle(asked.practice, kind),
      knownBy: [],
      flatten: false,
      wordedByLaw: false,
      boxes: [],
      rows: [],
      basis: { on: 'common practice' },
    }
  );
}

/** Every box of the blank as of the day. Fonts are loaded on first need: they cost time. */
export async function readingOf(given: FormAt): Promise<FormReading> {
  const { blank } = given.found;
  if (blank === undefined) return { boxes: [], notes: [] };
  const { loadFonts } = await import('../../../packet/sheets/fonts.ts');
  const { standpoint, subject } = given;
  const asked: FormCase = {
    at: standpoint,
    subject,
    form: mappingOf(given),
    blank: blank.form,
    fonts: await loadFonts(),
  };
  return readBoxes(asked);
}

export const caution =
  'You read it through and sign it: what it says is said by you. Signatures, days signed and a notary’s part are never filled.';
