import type { PhotoQuality } from '../../core/quality/photoQuality.ts';
import {
  qualityFindingText,
  qualityRows,
  qualityVerdictText,
  qualityWords,
} from '../../core/text/quality.ts';
import { Icon } from './Icon.tsx';
import styles from './Verdict.module.css';

interface VerdictProps {
  /** Null while the photo is looked over. */
  readonly quality: PhotoQuality | null;
  /** For a phone in the sun: larger words, no table. @default false */
  readonly large?: boolean;
}

/** What was not judged cannot be called good. */
const verdictWords = ({ verdict, measures }: PhotoQuality) =>
  verdict === 'good' && measures.millimetresPerPixel === null
    ? qualityWords.goodSoFar
    : qualityVerdictText[verdict];

/** Whether a photo is fit for measuring, in words: what is wrong with it, by how much, and what to do. */
export function Verdict({ quality, large = false }: VerdictProps) {
  return (
    <section
      className={[styles.verdict, large && styles.large, quality && styles[quality.verdict]]
        .filter(Boolean)
        .join(' ')}
      aria-label={qualityWords.title}
    >
      <div role="status">
        <h2>
          {quality && <Icon name={quality.verdict === 'good' ? 'good' : 'trouble'} size={large ? 28 : 20} />}
          {quality ? verdictWords(quality) : qualityWords.judging}
        </h2>
      </div>
      {quality && quality.findings.length > 0 && (
        <ul>
          {quality.findings.map((finding) => (
            <li key={finding.code} className={styles[finding.severity]}>
              {qualityFindingText(finding)}
            </li>
          ))}
        </ul>
      )}
      {quality && quality.findings.length === 0 && <p>{qualityWords.nothing}</p>}
      {quality && quality.measures.millimetresPerPixel === null && <p>{qualityWords.noScale}</p>}
      {quality && !large && (
        <details>
          <summary>{qualityWords.numbers}</summary>
          <table>
            <caption className="visually-hidden">{qualityWords.caption}</caption>
            <thead>
              <tr>
                <th scope="col">{qualityWords.measure}</th>
                <th scope="col">{qualityWords.value}</th>
                <th scope="col">{qualityWords.caution}</th>
                <th scope="col">{qualityWords.retake}</th>
              </tr>
            </thead>
            <tbody>
              {qualityRows(quality).map(({ name, value, caution, retake }) => (
                <tr key={name}>
                  <th scope="row">{name}</th>
                  <td>{value}</td>
                  <td>{caution ?? '–'}</td>
                  <td>{retake ?? '–'}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </details>
      )}
    </section>
  );
}
