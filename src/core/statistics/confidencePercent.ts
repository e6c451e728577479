/** 95 for alpha 0.05. */
export const confidencePercent = (alpha: number): number => Number((100 * (1 - alpha)).toPrecision(6));
