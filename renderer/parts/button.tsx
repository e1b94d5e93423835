import { Button } from 'react-aria-components';
import type { ReactNode } from 'react';

interface ButtonProps {
  readonly children: ReactNode;
  /** `next` is the one dark button of a place: the next right thing, never a way out. */
  readonly look?: 'next' | 'plain' | 'quiet';
  readonly isDisabled?: boolean;
  readonly label?: string;
  readonly type?: 'button' | 'submit';
  onPress?(): void;
}

/** A button of at least 48 px. */
export function PressButton({ children, look = 'plain', isDisabled = false, label, type = 'button', onPress }: ButtonProps): ReactNode {
  return (
    <Button
      className={look === 'plain' ? 'button' : `button ${look}`}
      isDisabled={isDisabled}
      type={type}
      {...(label === undefined ? {} : { 'aria-label': label })}
      {...(onPress === undefined ? {} : { onPress })}
    >
      {children}
    </Button>
  );
}
