import { expect, test } from 'vitest';
import { qrPath } from '../../../src/app/components/qrPath.ts';
import { parsePlotLabel, writePlotLabel } from '../../../src/core/trial/plotLabel.ts';
import { loadOpenCv } from '../../../src/vision/loadOpenCv.ts';

const MODULE_PX = 8;
const QUIET_ZONE = 4;

/** The picture as a camera would see it: dark runs of the path on white, grey values row-major. */
function painted(path: string, size: number): { side: number; grey: Uint8Array } {
  const side = (size + 2 * QUIET_ZONE) * MODULE_PX;
  const grey = new Uint8Array(side * side).fill(255);
  for (const [, x, y, length] of path.matchAll(/M(\d+) (\d+)h(\d+)v1H\d+z/g)) {
    for (let py = 0; py < MODULE_PX; py++) {
      const row = ((Number(y) + QUIET_ZONE) * MODULE_PX + py) * side;
      const start = row + (Number(x) + QUIET_ZONE) * MODULE_PX;
      grey.fill(0, start, start + Number(length) * MODULE_PX);
    }
  }
  return { side, grey };
}

test('labels are read by OpenCV as they were written', async () => {
  const cv = await loadOpenCv();
  const detector = new cv.QRCodeDetector();
  const [points, straight] = [new cv.Mat(), new cv.Mat()];
  for (const plot of ['101', '404', '7', 'N-12.B']) {
    const written = writePlotLabel({ trial: 'K7QF3M', plot, place: null, ratingDate: null });
    const { size, path } = qrPath(written);
    const { side, grey } = painted(path, size);
    const picture = cv.matFromArray(side, side, cv.CV_8UC1, grey as unknown as number[]);
    expect(detector.detectAndDecode(picture, points, straight)).toBe(written);
    expect(parsePlotLabel(written)).toMatchObject({ ok: true, label: { trial: 'K7QF3M', plot } });
    picture.delete();
  }
  for (const mat of [points, straight, detector]) mat.delete();
});
