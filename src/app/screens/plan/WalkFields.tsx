import { planText } from '../../../core/text/plan.ts';
import blocks from '../../components/blocks.module.css';
import { FormField } from '../../components/FormField.tsx';
import { usePlan } from './planContext.tsx';

const text = planText.layout;

const FIELDS = ['along', 'turn', 'startRow', 'startColumn'] as const;

/** How the plots are walked past. */
export function WalkFields() {
  const { session, trial, who } = usePlan();
  const { walk } = trial.photoRules;
  return (
    <div className={blocks.fields}>
      {FIELDS.map((name) => (
        <FormField
          key={name}
          label={text.walkLabels[name]}
          value={walk[name]}
          choices={Object.entries(text.walkChoices[name])}
          onChange={(value) =>
            void session.editPhotoRules(
              (before) => ({ ...before, walk: { ...before.walk, [name]: value } }),
              { who, why: planText.signature.why },
            )
          }
        />
      ))}
    </div>
  );
}
