import { treatmentCodes } from '../../../core/statistics/treatmentCodes.ts';
import { pointsText } from '../../../core/text/pointsScreen.ts';
import type { PointsState } from '../../session/points/pointsState.ts';

/** How treatments are named on screen: by number once an analysis is declared, under codes before. */
export function treatmentNames({
  treatments,
  declared,
  trialId,
}: Pick<PointsState, 'treatments' | 'declared' | 'trialId'>): (treatment: string) => string {
  if (declared) return pointsText.results.numbered;
  const numbers = [...new Set(treatments.values())].map(Number).sort((a, b) => a - b);
  const codes = treatmentCodes(numbers, trialId ?? '');
  return (treatment) => pointsText.results.coded(codes.get(Number(treatment)) ?? treatment);
}
