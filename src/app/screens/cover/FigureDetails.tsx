import { app } from '../../../core/text/app.ts';
import { formatInstant } from '../../../core/text/format.ts';
import { figureGapRuleText } from '../../../core/text/gapRule.ts';
import type { Figure, PhotoSummary } from '../../session/session.ts';
import styles from './FigureDetails.module.css';

/** Everything that is needed to make the figure again, for whoever questions it. */
export function FigureDetails({ photo, figure }: { photo: PhotoSummary; figure: Figure }) {
  const { facts } = app.cover;
  const { name, widthPx, heightPx, takenAt } = photo;
  const rows: readonly (readonly [string, string])[] = [
    [facts.file, name],
    ...(widthPx && heightPx ? [[facts.size, facts.sizeValue(widthPx, heightPx)] as const] : []),
    ...(takenAt ? [[facts.taken, takenAt.replace('T', ' ')] as const] : []),
    [facts.measured, facts.measuredValue(figure.measuredPixels)],
    [
      facts.scale,
      figure.millimetresPerPixel === null ? facts.scaleUnknown : facts.scaleValue(figure.millimetresPerPixel),
    ],
    [facts.method, figure.settings.frame ? facts.methodValue : facts.methodValueFlat],
    [facts.gapRule, figureGapRuleText(figure)],
    [facts.neutral, figure.settings.neutral ? facts.neutralValue : facts.neutralNone],
    [facts.model, figure.modelId],
    [facts.decoder, figure.decoder],
    [facts.software, `${app.name} ${figure.softwareVersion}`],
    [facts.when, formatInstant(figure.measuredAt)],
    [facts.hash, figure.photoSha256],
  ];
  return (
    <details className={styles.details}>
      <summary>{app.cover.details}</summary>
      <dl>
        {rows.map(([term, value]) => (
          <div key={term}>
            <dt>{term}</dt>
            <dd>{value}</dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
