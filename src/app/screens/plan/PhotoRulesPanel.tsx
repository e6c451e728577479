import { useState } from 'react';
import { formatDay } from '../../../core/text/format.ts';
import { planText } from '../../../core/text/plan.ts';
import { nameProblemText, patternProblemText } from '../../../core/text/trial.ts';
import { fileNameReader, patternProblem } from '../../../core/trial/fileNamePattern.ts';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { ratingDatesOf } from '../../session/placePhotos.ts';
import type { PhotoSummary } from '../../session/session.ts';
import styles from './PlanScreen.module.css';
import { usePlan } from './planContext.tsx';

const text = planText.board;
const PREVIEWED = 3;

/** How photos find their plots: file name patterns with what they read, and whether the order of the walk is vouched for. */
export function PhotoRulesPanel({ photos }: { photos: readonly PhotoSummary[] }) {
  const { session, trial, plan, who } = usePlan();
  const { photoRules } = trial;
  const [draft, setDraft] = useState<string | null>(null);
  const typed = (draft ?? photoRules.fileNamePatterns.join('\n')).split('\n').map((line) => line.trim());
  const patterns = typed.filter((line) => line !== '');
  const problem = patterns.map(patternProblem).find((one) => one !== null);
  const signature = { who, why: planText.signature.why };
  const preview = () => {
    if (problem) return [];
    const reader = fileNameReader(
      patterns,
      plan.plots.map(({ plot }) => plot),
    );
    return photos.slice(0, PREVIEWED).map(({ id, name }) => {
      const result = reader.read(name);
      if (!result.ok) return [id, name, nameProblemText(result.problem)] as const;
      const { plot, place, date } = result.reading;
      const read = [
        plot === null ? null : text.readPlot(plot),
        place === null ? null : text.readPlace(place),
        date === null ? null : formatDay(date, 'short'),
      ];
      return [id, name, read.filter((part) => part !== null).join(', ')] as const;
    });
  };
  const keep = () => {
    if (draft === null || problem) return;
    void session
      .editPhotoRules((before) => ({ ...before, fileNamePatterns: patterns }), signature)
      .then(({ ok }) => ok && setDraft(null));
  };
  return (
    <section className={blocks.section} aria-label={text.rules}>
      <h2>{text.rules}</h2>
      <FormField
        label={text.patterns}
        kind="notes"
        value={draft ?? photoRules.fileNamePatterns.join('\n')}
        onChange={setDraft}
        onDone={keep}
        hint={text.patternsHint}
        problem={problem ? patternProblemText(problem) : null}
      />
      <ul className={styles.notes} aria-label={text.preview}>
        {preview().map(([id, name, words]) => (
          <li key={id}>
            {name}: {words}
          </li>
        ))}
      </ul>
      <FormField
        label={text.undated}
        value={photoRules.dateOfUndated ?? ''}
        onChange={(date) => {
          const dateOfUndated = date || null;
          void session.editPhotoRules((before) => ({ ...before, dateOfUndated }), signature);
        }}
        choices={[
          ['', text.undatedNone],
          ...ratingDatesOf(plan).map((date) => [date, formatDay(date, 'short')] as const),
        ]}
      />
      <label className={blocks.check}>
        <input
          type="checkbox"
          checked={photoRules.orderTrusted}
          onChange={(event) => {
            const orderTrusted = event.target.checked;
            void session.editPhotoRules((before) => ({ ...before, orderTrusted }), signature);
          }}
        />
        <span>{text.orderTrusted}</span>
      </label>
      <p className={blocks.hint}>{text.orderHint}</p>
    </section>
  );
}
