import { Link, useLocation } from 'wouter';
import { app } from '../../core/text/app.ts';
import { SCREENS } from '../screenTable.tsx';
import { Button } from './Button.tsx';
import styles from './Header.module.css';
import { Icon } from './Icon.tsx';
import { SavedState } from './SavedState.tsx';

interface HeaderProps {
  readonly hasPhotos: boolean;
  readonly onHelp: () => void;
}

/** Name, screens, state of the store and help; on a phone the screens stand at the thumb. */
export function Header({ hasPhotos, onHelp }: HeaderProps) {
  const [path] = useLocation();
  return (
    <header className={styles.header}>
      <Link href="/photos" className={styles.name}>
        <img src="./icon.svg" alt="" width="28" height="28" />
        {app.name}
      </Link>
      <nav className={styles.screens} aria-label={app.navigation.label}>
        {SCREENS.map(({ id, label, href, needsPhotos }) =>
          href === null || (needsPhotos && !hasPhotos) ? null : (
            <Link
              key={id}
              href={href}
              aria-current={path === href || path.startsWith(`${href}/`) ? 'page' : undefined}
            >
              {label}
            </Link>
          ),
        )}
      </nav>
      <SavedState />
      <Button look="quiet" aria-label={app.help.open} title={`${app.help.open} (?)`} onClick={onHelp}>
        <Icon name="help" />
      </Button>
    </header>
  );
}
