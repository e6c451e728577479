import { app } from '../../../core/text/app.ts';
import { FilesPanel } from './FilesPanel.tsx';
import styles from './ReportScreen.module.css';

/** What leaves the program: files now; the printed report stands above them. */
export function ReportScreen() {
  return (
    <div className={styles.screen}>
      <h1>{app.navigation.report}</h1>
      <FilesPanel />
    </div>
  );
}
