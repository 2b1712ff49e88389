import type { FormAnswer, FormBoxRow } from '../../../core/desk/contract/form-answers.ts';
import { inPlace } from '../../kit/in-place.ts';
import { PagePicture } from '../../kit/PagePicture.tsx';
import { Scrolled } from '../../kit/Scrolled.tsx';
import { useAnswer } from '../../state/asked.ts';
import { type FormWanted, useFormView } from './form-view.ts';

type Page = NonNullable<FormAnswer['blank']>['pages'][number];

/** How a box is marked on the sheet: only those that want something, and the one that is pointed at. */
function markOf({ state }: FormBoxRow): string | undefined {
  if (state === 'unmapped') return 'unmapped';
  return state === 'filled' || state === 'empty' || state === 'left' || state === 'by hand' ? undefined : 'wrong';
}

/** Marks over one page; what they mean stands in the list, in words. */
function Marks({ boxes, page }: { readonly boxes: readonly FormBoxRow[]; readonly page: Page }) {
  const field = useFormView((state) => state.field);
  const shown = boxes.filter((box) => box.place !== undefined && (markOf(box) !== undefined || box.field === field));
  return (
    <div className="form-marks" aria-hidden="true">
      {shown.map((box) => {
        const { x, y, width, height } = box.place ?? { x: 0, y: 0, width: 0, height: 0 };
        const style = {
          left: `${(x / page.width) * 100}%`,
          top: `${(1 - (y + height) / page.height) * 100}%`,
          width: `${(width / page.width) * 100}%`,
          height: `${(height / page.height) * 100}%`,
        };
        const pointed = box.field === field ? ' pointed' : '';
        return <span key={box.field} className={`form-mark ${markOf(box) ?? ''}${pointed}`} style={style} />;
      })}
    </div>
  );
}

/** The sheet as it will be; until that is drawn, and where nobody mapped it, the blank. */
export function FormSheet({ form, wanted }: { readonly form: FormAnswer; readonly wanted: FormWanted }) {
  const { blank, boxes, mapped, counts } = form;
  const can = mapped && counts.filled > 0;
  const looked = useAnswer('fill-form', can ? { ...wanted, look: true } : undefined);
  if (blank === undefined) return null;
  const filled = can ? looked.answer : undefined;
  const say = filled === undefined ? 'The blank' : 'As it will be';
  return (
    <Scrolled className="form-sheet" label={`${say}: ${form.title}`}>
      <p className="small pencil" aria-live="polite">
        {looked.waiting && can
          ? 'Filling a copy to look at ...'
          : `${say}. Nothing is kept before you press “Fill it”.`}
        {looked.error === undefined ? '' : ` ${looked.error.message}`}
      </p>
      {inPlace(blank.pages).map(({ part: page, place }) => (
        <div className="form-page" key={place}>
          <PagePicture
            ticket={filled?.ticket ?? blank.ticket}
            page={place}
            width={page.width}
            height={page.height}
            title={`${say}, page ${place + 1} of ${blank.pages.length}`}
          />
          <Marks boxes={boxes.filter((box) => box.page === place)} page={page} />
        </div>
      ))}
    </Scrolled>
  );
}
