import { create } from 'zustand';
import type { AssembleAnswer } from '../../../core/desk/contract/answers.ts';

/** What lies over the spread; one at a time. */
export type SlipWanted =
  | { readonly slip: 'otherwise'; readonly about?: string | undefined }
  | { readonly slip: 'another paper' }
  | {
      readonly slip: 'not here';
      readonly kind: string;
      readonly paper?: string | undefined;
      readonly title: string;
      readonly again: boolean;
    }
  | { readonly slip: 'assemble' }
  | { readonly slip: 'made'; readonly made: AssembleAnswer }
  | { readonly slip: 'hand over'; readonly packet: string }
  | { readonly slip: 'outcome' }
  | { readonly slip: 'own sheet' }
  | { readonly slip: 'form'; readonly need: string; readonly subject?: string | undefined };

export interface FinishedFile {
  readonly ticket: string;
  readonly name: string;
  readonly pages: number;
}

interface ErrandView {
  /** Index of the sheet on top of the stack, over all files. */
  readonly at: number;
  /** The stack is opened to full size. */
  readonly open: boolean;
  /** A finished file is read instead of the plan. */
  readonly finished?: FinishedFile | undefined;
  readonly slip?: SlipWanted | undefined;
  /** Where the spread was scrolled to when the stack was opened. */
  readonly from: number;
}

const fresh = { at: 0, open: false, from: 0, finished: undefined, slip: undefined };

export const useErrandView = create<ErrandView>()(() => fresh);

/** Another errand came on view. */
export function startAfresh(): void {
  useErrandView.setState(fresh, true);
}

export function turnTo(at: number): void {
  useErrandView.setState({ at });
}

export function lay(slip: SlipWanted): void {
  useErrandView.setState({ slip });
}

export function putAway(): void {
  useErrandView.setState({ slip: undefined });
}

export function openStack(): void {
  useErrandView.setState({ open: true, finished: undefined, from: window.scrollY });
}

export function openFinished(finished: FinishedFile): void {
  useErrandView.setState({ finished, slip: undefined, from: window.scrollY });
}

/** Back to the spread, where it was left. */
export function closeReader(): void {
  const { from } = useErrandView.getState();
  useErrandView.setState({ open: false, finished: undefined });
  requestAnimationFrame(() => window.scrollTo(0, from));
}
