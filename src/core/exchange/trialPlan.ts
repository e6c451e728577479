import { checkRecord } from '../trial/checkRecord.ts';
import type { Checked, FieldProblem } from '../trial/fieldProblem.ts';
import { type PlanProblem, planProblems } from '../trial/planProblems.ts';
import { type TrialPlan, trialPlanSchema } from '../trial/trialPlan.ts';

const TYPE = 'trial-plan';
const VERSION = 1;

/** Why a text is no trial plan that can be used. */
export type TrialPlanProblem =
  | { readonly code: 'plan-not-json'; readonly detail: string }
  | { readonly code: 'plan-other-type'; readonly met: unknown; readonly expected: string }
  | { readonly code: 'plan-newer'; readonly version: unknown; readonly known: number }
  | { readonly code: 'plan-field'; readonly problem: FieldProblem }
  | { readonly code: 'plan-contradiction'; readonly problem: PlanProblem };

/**
 * Reads a trial plan file (`{"type": "trial-plan", "version": 1, ...}`).
 *
 * @returns the whole plan, or every problem; never part of it
 */
export function readTrialPlan(text: string): Checked<TrialPlan, TrialPlanProblem> {
  let content: unknown;
  try {
    content = JSON.parse(text.replace(/^\uFEFF/, ''));
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    return { ok: false, problems: [{ code: 'plan-not-json', detail }] };
  }
  const { type, version } = (typeof content === 'object' && content !== null ? content : {}) as Record<
    string,
    unknown
  >;
  if (type !== TYPE) return { ok: false, problems: [{ code: 'plan-other-type', met: type, expected: TYPE }] };
  if (version !== VERSION) {
    return { ok: false, problems: [{ code: 'plan-newer', version, known: VERSION }] };
  }
  const checked = checkRecord(trialPlanSchema, content);
  if (!checked.ok) {
    return { ok: false, problems: checked.problems.map((problem) => ({ code: 'plan-field', problem })) };
  }
  const contradictions = planProblems(checked.value);
  if (contradictions.length > 0) {
    return {
      ok: false,
      problems: contradictions.map((problem) => ({ code: 'plan-contradiction', problem })),
    };
  }
  return checked;
}

/** The plan as a file; `readTrialPlan` reads the same plan again. */
export function writeTrialPlan(plan: TrialPlan): string {
  return `${JSON.stringify(plan, null, 1)}\n`;
}
