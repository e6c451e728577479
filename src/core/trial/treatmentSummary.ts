import type { Application, AppliedProduct, SeasonLimit } from './application.ts';
import { type SiQuantity, siQuantity } from './quantity.ts';
import { type ResolvedTimings, resolveTimings } from './resolveTimings.ts';
import type { TrialPlan } from './trialPlan.ts';

/** What a treatment amounts to over the season, planned and done together. */
export interface TreatmentSummary {
  readonly treatment: number;
  /** Visits; a tank mixture is one. Those left out are not counted. */
  readonly applications: number;
  readonly applicationsDone: number;
  /** Groups of modes of action, in the order they are first used. */
  readonly modesOfAction: readonly string[];
  /** Active ingredients entered without a group: the list of groups may be short by these. */
  readonly withoutModeOfAction: readonly string[];
  /** Groups used two or more times in a row, with the longest run of each. */
  readonly repeats: readonly { readonly modeOfActionGroup: string; readonly inARow: number }[];
  /** Applications that could not be put in order, having no day yet; they stand outside the runs. */
  readonly withoutDay: readonly string[];
  readonly totals: readonly SeasonTotal[];
  /** Money for one hectare; null where no product has a cost. */
  readonly costPerHectare: number | null;
  /** Products whose cost is unknown: the sum leaves them out. */
  readonly withoutCost: readonly string[];
}

/** The season's total of something that the user entered a maximum for. */
export interface SeasonTotal {
  readonly limit: SeasonLimit;
  /** In the unit of `most`; null where it cannot be worked out at all. */
  readonly total: number | null;
  readonly most: SiQuantity;
  /** `unknown` where a part has no rate or no content: the total is then at least what is shown. */
  readonly verdict: 'within' | 'above' | 'unknown';
  /** Applications whose part is unknown. */
  readonly without: readonly string[];
}

export function treatmentSummaries(plan: TrialPlan): TreatmentSummary[] {
  const timings = resolveTimings(plan);
  return plan.treatments.map(({ number }) => summaryOf(number, plan, timings));
}

function summaryOf(treatment: number, plan: TrialPlan, timings: ResolvedTimings): TreatmentSummary {
  const applications = plan.applications.filter(
    ({ treatments, progress }) => treatments.includes(treatment) && progress.state !== 'left-out',
  );
  const products = applications.flatMap((application) => application.products);
  const ingredients = products.flatMap((product) => product.activeIngredients);
  const dayOf = ({ id }: Application) => {
    const resolved = timings.applications.get(id);
    return resolved && 'day' in resolved ? resolved.day : null;
  };
  const inOrder = applications
    .filter((application) => dayOf(application) !== null)
    .sort((a, b) => dayOf(a)!.localeCompare(dayOf(b)!));
  const costs = products.flatMap(({ costPerHectare }) => (costPerHectare === null ? [] : [costPerHectare]));
  return {
    treatment,
    applications: applications.length,
    applicationsDone: applications.filter(({ progress }) => progress.state === 'done').length,
    modesOfAction: unique(inOrderThen(inOrder, applications).flatMap(groupsOf)),
    withoutModeOfAction: unique(
      ingredients.filter(({ modeOfActionGroup }) => modeOfActionGroup === null).map(({ name }) => name),
    ),
    repeats: longestRuns(inOrder.map(groupsOf)),
    withoutDay: applications.filter((application) => dayOf(application) === null).map(({ id }) => id),
    totals: plan.seasonLimits
      .filter((limit) => products.some((product) => names(product, limit).length > 0))
      .map((limit) => seasonTotal(limit, applications)),
    costPerHectare: costs.length > 0 ? costs.reduce((sum, cost) => sum + cost, 0) : null,
    withoutCost: unique(
      products.filter(({ costPerHectare }) => costPerHectare === null).map(({ name }) => name),
    ),
  };
}

const unique = (items: readonly string[]) => [...new Set(items)];

const inOrderThen = (inOrder: readonly Application[], all: readonly Application[]) => [
  ...inOrder,
  ...all.filter((application) => !inOrder.includes(application)),
];

function groupsOf({ products }: Application): string[] {
  const groups = products.flatMap((product) =>
    product.activeIngredients.flatMap(({ modeOfActionGroup }) => modeOfActionGroup ?? []),
  );
  return unique(groups);
}

function longestRuns(groupsInOrder: readonly (readonly string[])[]) {
  const longest = new Map<string, number>();
  let running = new Map<string, number>();
  // A visit without any mode of action (mowing, fertiliser) does not break a run.
  for (const groups of groupsInOrder.filter((one) => one.length > 0)) {
    running = new Map(groups.map((group) => [group, (running.get(group) ?? 0) + 1]));
    for (const [group, run] of running) longest.set(group, Math.max(longest.get(group) ?? 0, run));
  }
  return [...longest]
    .filter(([, inARow]) => inARow > 1)
    .map(([modeOfActionGroup, inARow]) => ({ modeOfActionGroup, inARow }));
}

const sameName = (a: string, b: string) => a.toLowerCase() === b.toLowerCase();

/** The ingredients of a product that a limit counts; the product itself stands for a limit on products. */
function names(product: AppliedProduct, limit: SeasonLimit) {
  if (limit.of === 'product') return sameName(product.name, limit.name) ? [null] : [];
  return product.activeIngredients.filter(({ name }) => sameName(name, limit.name));
}

function seasonTotal(limit: SeasonLimit, applications: readonly Application[]): SeasonTotal {
  const most = siQuantity(limit.most);
  const parts = applications.flatMap(({ id, products }) =>
    products.flatMap((product) =>
      names(product, limit).map((ingredient) => ({
        id,
        amount: amountOn(product, ingredient, most.kind),
      })),
    ),
  );
  const known = parts.flatMap(({ amount }) => amount ?? []);
  const total = known.length > 0 ? known.reduce((sum, amount) => sum + amount, 0) : null;
  const without = parts.filter(({ amount }) => amount === null).map(({ id }) => id);
  // A billionth is rounding: three thirds of the most are the most.
  const above = total !== null && total > most.amount * (1 + 1e-9);
  return {
    limit,
    total,
    most,
    without,
    verdict: above ? 'above' : without.length > 0 ? 'unknown' : 'within',
  };
}

/** Amount of a product, or of one ingredient of it, on a hectare in the unit of a kind; null if that cannot be told. */
function amountOn(
  product: AppliedProduct,
  ingredient: AppliedProduct['activeIngredients'][number] | null,
  kind: SiQuantity['kind'],
): number | null {
  if (!product.rate) return null;
  const rate = siQuantity(product.rate);
  if (ingredient === null) return rate.kind === kind ? rate.amount : null;
  if (ingredient.content === null || kind !== 'mass-per-area') return null;
  const content = siQuantity(ingredient.content);
  const fits =
    (rate.kind === 'volume-per-area' && content.kind === 'mass-per-volume') ||
    (rate.kind === 'mass-per-area' && content.kind === 'mass-share');
  // g/L of L/ha, or g/kg of kg/ha: thousandths of a kilogram on a hectare
  return fits ? (rate.amount * content.amount) / 1000 : null;
}
