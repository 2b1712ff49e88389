import type { ReactNode, Ref } from 'react';

/** What scrolls must be reached by keys: it takes its turn with the buttons and fields. */
const reachable = { tabIndex: 0 } as const;

export interface ScrolledProps {
  readonly label: string;
  readonly className: string;
  readonly box?: Ref<HTMLElement> | undefined;
  readonly children?: ReactNode;
}

/** A region of its own that scrolls. */
export function Scrolled({ label, className, box, children }: ScrolledProps) {
  return (
    <section className={className} aria-label={label} ref={box} {...reachable}>
      {children}
    </section>
  );
}
