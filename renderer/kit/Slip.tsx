import { type ReactNode, useEffect } from 'react';
import { Dialog } from 'react-aria-components/Dialog';
import { Heading } from 'react-aria-components/Heading';
import { Modal, ModalOverlay } from 'react-aria-components/Modal';
import { useSlips } from '../state/telling.ts';
import { Button } from './Button.tsx';
import { Told } from './Told.tsx';

export interface SlipProps {
  readonly title: string;
  readonly open: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** Buttons at the foot. */
  readonly foot?: ReactNode;
  readonly wide?: boolean | undefined;
  /** What is looked at meanwhile, a sheet: it stands beside the slip's own lines, in sight all the time. */
  readonly beside?: ReactNode;
}

/**
 * A slip of paper laid over the screen; Escape or Close puts it away. What is told meanwhile stands below its buttons:
 * the notices of the sheet lie out of reach beneath.
 */
export function Slip({ title, open, onClose, children, foot, wide, beside }: SlipProps) {
  useEffect(() => {
    if (!open) return;
    useSlips.setState((slips) => ({ open: slips.open + 1 }));
    return () => useSlips.setState((slips) => ({ open: slips.open - 1 }));
  }, [open]);
  return (
    <ModalOverlay
      className="veil"
      isOpen={open}
      onOpenChange={(now) => {
        if (!now) onClose();
      }}
      isDismissable
    >
      <Modal className={`slip settle${wide === true ? ' wide' : ''}${beside === undefined ? '' : ' with-sheet'}`}>
        <Dialog>
          {beside === undefined ? null : <div className="slip-beside">{beside}</div>}
          <div>
            <header>
              <Heading slot="title" level={2}>
                {title}
              </Heading>
              <Button as="word" small slot="close">
                Close
              </Button>
            </header>
            <div className="body">{children}</div>
            {foot === undefined ? null : <footer>{foot}</footer>}
            <div className="slip-told" aria-live="polite">
              <Told on="slip" />
            </div>
          </div>
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
