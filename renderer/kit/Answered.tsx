import type { ReactNode } from 'react';
import type { RequestAnswer, RequestName } from '../../core/desk/contract/requests.ts';
import type { Answered as Asked } from '../state/asked.ts';
import { Trouble } from './Trouble.tsx';

export interface AnsweredProps<N extends RequestName> {
  readonly of: Asked<N>;
  readonly children: (answer: RequestAnswer<N>) => ReactNode;
}

/** Shows an answer once it is there; meanwhile a quiet line, and troubles in place. */
export function Answered<N extends RequestName>({ of, children }: AnsweredProps<N>) {
  if (of.answer !== undefined) return <>{children(of.answer)}</>;
  if (of.error !== undefined) return <Trouble error={of.error} />;
  return <p className="waiting">Reading ...</p>;
}
