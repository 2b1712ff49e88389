import { create } from 'zustand';
import type { AmendableRow, InspectionRow } from '../../../core/desk/contract/screen-answers.ts';

/** What lies over the screen; one at a time. */
export type SlipWanted =
  | { readonly slip: 'book'; readonly row: InspectionRow }
  | { readonly slip: 'outcome'; readonly row: InspectionRow }
  | { readonly slip: 'held here'; readonly rule: AmendableRow };

interface View {
  readonly slip?: SlipWanted | undefined;
}

export const useInspectionsView = create<View>()(() => ({}));

export function lay(slip: SlipWanted): void {
  useInspectionsView.setState({ slip });
}

export function putAway(): void {
  useInspectionsView.setState({ slip: undefined });
}
