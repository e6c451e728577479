import { renderToStaticMarkup } from 'react-dom/server';
import { reportText as text } from '../../../../core/text/report.ts';
import { TitleLevelProvider } from './headings.tsx';
import { pageWords } from './pageWords.ts';
import css from './paper.css?inline';
import { ReportPaper, type ReportPaperProps } from './ReportPaper.tsx';

/** Nothing is fetched and nothing runs, whatever a trial's texts hold. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

/** The report as one HTML file that needs nothing else: styles and pictures are inside, there is no script. */
export function reportFile(props: ReportPaperProps): Blob {
  const { report, length } = props;
  const body = renderToStaticMarkup(
    <TitleLevelProvider level={1}>
      <main>
        <ReportPaper {...props} />
      </main>
    </TitleLevelProvider>,
  );
  const title = renderToStaticMarkup(<title>{`${text.kind[length]}: ${report.trial.name}`}</title>);
  const words = Object.entries(pageWords(report)).map(([name, value]) => `${name}: ${value};`);
  const head = [
    '<meta charset="utf-8">',
    `<meta http-equiv="Content-Security-Policy" content="${POLICY}">`,
    '<meta name="viewport" content="width=device-width, initial-scale=1">',
    '<meta name="color-scheme" content="light">',
    '<meta name="referrer" content="no-referrer">',
    title,
    `<style>:root { ${words.join(' ')} }\nbody { margin: 0; background: #ffffff; }\n${css}</style>`,
  ];
  const page = `<!doctype html>\n<html lang="${text.language}">\n<head>\n${head.join('\n')}\n</head>\n<body>\n${body}\n</body>\n</html>\n`;
  return new Blob([page], { type: 'text/html' });
}
