import { Link } from 'wouter';
import { app } from '../../../core/text/app.ts';
import { reportText } from '../../../core/text/report.ts';
import { FilesPanel } from './FilesPanel.tsx';
import { ReportPart } from './ReportPart.tsx';
import styles from './ReportScreen.module.css';
import { SignsPart } from './SignsPart.tsx';

const text = reportText.screen;

const PARTS = { report: ReportPart, signs: SignsPart, files: FilesPanel } as const;
type PartName = keyof typeof PARTS;
const NAMES = Object.keys(PARTS) as readonly PartName[];

/** What leaves the program: the report, signs for the plots, files. */
export function ReportScreen({ params }: { params: Record<string, string | undefined> }) {
  const part = NAMES.find((name) => name === params.part) ?? 'report';
  const Part = PARTS[part];
  return (
    <div className={styles.screen}>
      <h1 className={styles.screenOnly}>{app.navigation.report}</h1>
      <nav className={styles.parts} aria-label={text.parts}>
        {NAMES.map((name) => (
          <Link
            key={name}
            href={name === 'report' ? '/report' : `/report/${name}`}
            aria-current={name === part ? 'page' : undefined}
          >
            {text.part[name]}
          </Link>
        ))}
      </nav>
      <Part />
    </div>
  );
}
