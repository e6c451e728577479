/** @throws RangeError unless hits is a whole number within 0..points, points 1 or more and confidence between 0 and 1 */
export function checkCounts(hits: number, points: number, confidence: number): void {
  if (!(Number.isInteger(points) && points >= 1))
    throw new RangeError(`points must be 1 or more, got ${points}`);
  if (!(Number.isInteger(hits) && hits >= 0 && hits <= points)) {
    throw new RangeError(`hits must be a whole number within 0..${points}, got ${hits}`);
  }
  if (!(confidence > 0 && confidence < 1))
    throw new RangeError(`confidence must be between 0 and 1, got ${confidence}`);
}
