import type { ReactNode } from 'react';
import { Dialog } from 'react-aria-components/Dialog';
import { Heading } from 'react-aria-components/Heading';
import { Modal, ModalOverlay } from 'react-aria-components/Modal';
import { Button } from './Button.tsx';

export interface SlipProps {
  readonly title: string;
  readonly open: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** Buttons at the foot. */
  readonly foot?: ReactNode;
  readonly wide?: boolean | undefined;
}

/** A slip of paper laid over the screen; Escape or Close puts it away. */
export function Slip({ title, open, onClose, children, foot, wide }: SlipProps) {
  return (
    <ModalOverlay
      className="veil"
      isOpen={open}
      onOpenChange={(now) => {
        if (!now) onClose();
      }}
      isDismissable
    >
      <Modal className={`slip settle${wide === true ? ' wide' : ''}`}>
        <Dialog>
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
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
