import { useMemo } from 'react';
import { classesText as text } from '../../core/text/classes.ts';
import type { PhotoSummary } from '../session/session.ts';
import { useSession } from '../session/useSession.tsx';
import { Button } from './Button.tsx';
import { Notice } from './Notice.tsx';

/** Says that figures were made with other classes or another rule for gaps than the trial has now. */
export function DefinitionNotice({ photos }: { photos: readonly PhotoSummary[] }) {
  const session = useSession();
  const stale = useMemo(
    () =>
      photos.filter(({ definitionChanged, work }) => definitionChanged && work === null).map(({ id }) => id),
    [photos],
  );
  const setAside = useMemo(() => photos.filter(({ modelSetAside }) => modelSetAside).length, [photos]);
  if (stale.length === 0 && setAside === 0) return null;
  return (
    <Notice>
      {stale.length > 0 && <p>{text.staleNotice(stale.length)}</p>}
      {setAside > 0 && <p>{text.setAsideNotice(setAside)}</p>}
      {stale.length > 0 && <Button onClick={() => session.retry(stale)}>{text.measureAgain}</Button>}
    </Notice>
  );
}
