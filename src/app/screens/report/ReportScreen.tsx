import { app } from '../../../core/text/app.ts';
import { reportText } from '../../../core/text/report.ts';
import { Page } from '../../components/Page.tsx';
import { PartNav } from '../../components/PartNav.tsx';
import { FilesPanel } from './FilesPanel.tsx';
import { ReportPart } from './ReportPart.tsx';
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
    <Page title={app.navigation.report} namedByTab>
      <PartNav
        label={text.parts}
        parts={NAMES.map((name) => ({
          href: name === 'report' ? '/report' : `/report/${name}`,
          words: text.part[name],
          current: name === part,
        }))}
      />
      <Part />
    </Page>
  );
}
