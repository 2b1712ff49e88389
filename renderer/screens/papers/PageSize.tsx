import { Choices } from '../../kit/Choices.tsx';

/** In percent of the width there is. */
export const pageSizes = ['100', '150', '220'] as const;

export interface PageSizeProps {
  readonly size: string;
  readonly onSize: (size: string) => void;
}

/** How large a page is shown: dates on a plan sheet are small. */
export function PageSize({ size, onSize }: PageSizeProps) {
  return (
    <Choices
      label="Size of the page"
      labelUnseen
      options={pageSizes.map((id) => ({ id, title: id === '100' ? 'Fit' : `${id}%` }))}
      value={size}
      onChange={onSize}
    />
  );
}
