import { Link, useRoute } from 'wouter';
import { app } from '../../core/text/app.ts';
import { Button } from './Button.tsx';
import styles from './Header.module.css';
import { Icon } from './Icon.tsx';
import { SavedState } from './SavedState.tsx';

interface HeaderProps {
  /** Where "Cover" leads: the photo that was open last, or the first one; null while there is none. */
  readonly coverPhotoId: string | null;
  readonly hasPhotos: boolean;
  readonly onHelp: () => void;
}

/** Name, screens, state of the store and help; on a phone the screens stand at the thumb. */
export function Header({ coverPhotoId, hasPhotos, onHelp }: HeaderProps) {
  const [onPlan] = useRoute('/plan/:part?');
  const [onPhotos] = useRoute('/photos');
  const [onCover] = useRoute('/cover/:id');
  return (
    <header className={styles.header}>
      <Link href="/photos" className={styles.name}>
        <img src="./icon.svg" alt="" width="28" height="28" />
        {app.name}
      </Link>
      <nav className={styles.screens} aria-label={app.navigation.label}>
        <Link href="/plan" aria-current={onPlan ? 'page' : undefined}>
          {app.navigation.plan}
        </Link>
        {hasPhotos && (
          <Link href="/photos" aria-current={onPhotos ? 'page' : undefined}>
            {app.navigation.photos}
          </Link>
        )}
        {coverPhotoId && (
          <Link href={`/cover/${coverPhotoId}`} aria-current={onCover ? 'page' : undefined}>
            {app.navigation.cover}
          </Link>
        )}
      </nav>
      <SavedState />
      <Button look="quiet" aria-label={app.help.open} title={`${app.help.open} (?)`} onClick={onHelp}>
        <Icon name="help" />
      </Button>
    </header>
  );
}
