import { archiveText as text } from '../../../core/text/archive.ts';
import { openArchive } from '../../session/archive.ts';
import { usePart } from '../../session/useSession.tsx';
import styles from './FilesPanel.module.css';
import { OpenArchive } from './OpenArchive.tsx';
import { SaveArchive } from './SaveArchive.tsx';
import { SaveTables } from './SaveTables.tsx';

/** The trial as files: archives out and in, tables out. */
export function FilesPanel() {
  const archive = usePart(openArchive);
  return (
    <section className={styles.panel} aria-labelledby="files-title">
      <h2 id="files-title">{text.title}</h2>
      {archive ? (
        <div className={styles.parts}>
          <SaveArchive archive={archive} />
          <OpenArchive archive={archive} />
          <SaveTables archive={archive} />
        </div>
      ) : (
        <p role="status">{text.opening}</p>
      )}
    </section>
  );
}
