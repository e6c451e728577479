import { Link } from 'wouter';
import { reportText } from '../../../core/text/report.ts';
import { Notice } from '../../components/Notice.tsx';
import { openReport, type Reporting } from '../../session/report.ts';
import { useObservable, usePart } from '../../session/useSession.tsx';
import { ReportDesk } from './ReportDesk.tsx';
import styles from './ReportScreen.module.css';

const text = reportText.screen;

/** The report, once its records are gathered; before that what is missing. */
export function ReportPart() {
  const reporting = usePart(openReport);
  return reporting ? <Gathered reporting={reporting} /> : <p role="status">{text.opening}</p>;
}

function Gathered({ reporting }: { reporting: Reporting }) {
  const { trial, source, working, trouble } = useObservable(reporting.state);
  if (trial.state === 'none') {
    return (
      <>
        <p className={styles.lead}>{text.noTrial.sentence}</p>
        <p>
          <Link className={styles.link} href="/plan">
            {text.noTrial.go}
          </Link>
        </p>
      </>
    );
  }
  if (trial.state === 'unreadable') {
    return (
      <Notice kind="trouble">
        <p>{text.unreadable}</p>
      </Notice>
    );
  }
  if (!source) return <p role="status">{text.opening}</p>;
  return <ReportDesk reporting={reporting} source={source} working={working} trouble={trouble} />;
}
