import type { Delivery } from '../../vocabulary/practice.ts';

/** Whether what goes is files over a wire: nobody walks to a counter with it. */
export function onScreen({ way }: Delivery): boolean {
  return way === 'upload' || way === 'e-mail';
}
