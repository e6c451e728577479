import { Link } from 'wouter';
import styles from './PartNav.module.css';

interface PartNavProps {
  readonly label: string;
  readonly parts: readonly { readonly href: string; readonly words: string; readonly current: boolean }[];
}

/** The parts of a screen, one of them open. On a phone they scroll sideways, and the open one is in sight. */
export function PartNav({ label, parts }: PartNavProps) {
  return (
    <nav className={styles.parts} aria-label={label}>
      {parts.map(({ href, words, current }) => (
        <Link
          key={href}
          href={href}
          aria-current={current ? 'page' : undefined}
          ref={current ? intoView : undefined}
        >
          {words}
        </Link>
      ))}
    </nav>
  );
}

function intoView(link: HTMLAnchorElement | null): void {
  const parts = link?.parentElement;
  if (parts) parts.scrollLeft = link.offsetLeft - (parts.clientWidth - link.offsetWidth) / 2;
}
