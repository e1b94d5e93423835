import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import type { ReactNode } from 'react';

interface LeafProps {
  readonly title: string;
  readonly wide?: boolean;
  readonly children: ReactNode;
  onClose(): void;
}

/** A leaf laid over the page: one question, answered or closed. The page behind it is hidden from readers, so its title is the first. */
export function Leaf({ title, wide = false, children, onClose }: LeafProps): ReactNode {
  return (
    <ModalOverlay className="shade" isOpen isDismissable onOpenChange={(open) => { if (!open) onClose(); }}>
      <Modal className={wide ? 'leaf wide' : 'leaf'}>
        <Dialog className="stack">
          <Heading slot="title" level={1} className="leaf-title">{title}</Heading>
          {children}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}
