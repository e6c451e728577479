import { useEffect, useState } from 'react';
import { app } from '../../core/text/app.ts';
import { useAddPhotos } from './AddPhotos.tsx';
import styles from './DropTarget.module.css';
import { filesOf } from './filesOf.ts';

const carriesFiles = (event: DragEvent) => event.dataTransfer?.types.includes('Files') ?? false;

/** Takes files and folders dropped anywhere on the page, and shows that it would. */
export function DropTarget() {
  const { add } = useAddPhotos();
  const [over, setOver] = useState(false);
  useEffect(() => {
    const onOver = (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      setOver(true);
    };
    const onLeave = (event: DragEvent) => {
      // leaving the window, not one element for the next
      if (event.relatedTarget === null) setOver(false);
    };
    const onDrop = async (event: DragEvent) => {
      if (!carriesFiles(event)) return;
      event.preventDefault();
      setOver(false);
      add(await filesOf(event.dataTransfer!));
    };
    document.addEventListener('dragover', onOver);
    document.addEventListener('dragleave', onLeave);
    document.addEventListener('drop', onDrop);
    return () => {
      document.removeEventListener('dragover', onOver);
      document.removeEventListener('dragleave', onLeave);
      document.removeEventListener('drop', onDrop);
    };
  }, [add]);
  return over ? <div className={styles.target}>{app.adding.drop}</div> : null;
}
