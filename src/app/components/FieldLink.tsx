import { useEffect, useState } from 'react';
import { Link } from 'wouter';
import { app } from '../../core/text/app.ts';
import type { FieldReturn } from '../session/fieldReturn.ts';
import { useObservable, useSession } from '../session/useSession.tsx';
import button from './Button.module.css';
import styles from './FieldLink.module.css';
import { Icon } from './Icon.tsx';

/** The way into the field, or back to the plot where a person was; nothing before there is a trial with plots. */
export function FieldLink() {
  const session = useSession();
  const { state } = useObservable(session.storageState);
  const [field, setField] = useState<FieldReturn | null>(null);
  useEffect(() => {
    if (state !== 'ready') return;
    let current = true;
    import('../session/fieldReturn.ts')
      .then(({ openFieldReturn }) => session.open(openFieldReturn))
      .then(
        (found) => current && setField(found),
        (error) => console.error(error),
      );
    return () => {
      current = false;
    };
  }, [session, state]);
  if (!field?.hasTrial) return null;
  const { day } = field;
  return (
    <div className={styles.place}>
      {day?.awaited && <p role="alert">{app.field.missed(day.awaited)}</p>}
      <Link
        href={day ? `/field/${day.ratingDate}` : '/field'}
        className={`${button.button} ${button.plain} ${styles.link}`}
      >
        <Icon name="camera" />
        {day ? app.field.goOn(day.ratingDate) : app.field.open}
      </Link>
    </div>
  );
}
