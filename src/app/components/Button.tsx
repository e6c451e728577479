import type { ComponentProps } from 'react';
import styles from './Button.module.css';

interface ButtonProps extends ComponentProps<'button'> {
  /** `main` once on a screen; `plain` for the rest; `quiet` where many stand side by side. @default 'plain' */
  readonly look?: 'main' | 'plain' | 'quiet';
  readonly large?: boolean;
}

export function Button({ look = 'plain', large = false, className, ...rest }: ButtonProps) {
  const names = [styles.button, styles[look], large && styles.large, className].filter(Boolean).join(' ');
  return <button type="button" {...rest} className={names} />;
}
