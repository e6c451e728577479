import { newTrialCode, writePlotLabel } from '../../src/core/trial/plotLabel.ts';
import { repeatableRandom } from '../../src/core/trial/repeatableRandom.ts';
import { type LaidLabel, photoWithLabels } from '../support/labelPictures.ts';
import { addPhotos, expect, test } from './app.ts';

const lying = { modulePx: 6, turnDegrees: 25, tiltDegrees: 20, shadow: 0.5, blurPx: 0.7 };

/** A photo with a label in it, under a name that says nothing. */
async function labelled(name: string, trial: string, plot: string, seed: number) {
  const label: LaidLabel = {
    ...lying,
    text: writePlotLabel({ trial, plot, place: null, ratingDate: '2027-05-17' }),
  };
  const buffer = await photoWithLabels('2027-05-17_101.jpg', 2800, [label], seed);
  return { name, mimeType: 'image/jpeg', buffer };
}

test('photos find their plots by the labels in them; one of another trial is held and says so', async ({
  page,
}) => {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByRole('button', { name: 'Use the sample plan' }).click();
  const fact = page.getByText('Code on labels').locator('..');
  const code = (await fact.getByRole('strong').or(fact.locator('strong')).first().textContent())!;
  await page.getByRole('link', { name: 'Photos', exact: true }).last().click();
  const board = page.getByRole('table', { name: /^Photos by plot/ });
  await expect(board).toBeVisible();
  const other = newTrialCode(repeatableRandom(5));
  await addPhotos(page, [
    await labelled('IMG_0001.jpg', code, '203', 1),
    await labelled('IMG_0002.jpg', code, '102', 2),
    await labelled('IMG_0003.jpg', other, '101', 3),
  ]);
  // labels are looked for when nothing is measured any more
  await expect(page.getByRole('button', { name: 'Plot 203, place 1, 17 May 2027: there' })).toBeVisible({
    timeout: 60_000,
  });
  await expect(page.getByRole('button', { name: 'Plot 102, place 1, 17 May 2027: there' })).toBeVisible();
  const held = page.getByRole('listitem').filter({ has: page.getByText('IMG_0003.jpg', { exact: true }) });
  await expect(held).toContainText(`another trial (${other}, plot 101)`);
  await page.getByRole('button', { name: 'Plot 203, place 1, 17 May 2027: there' }).click();
  await expect(page.getByRole('dialog')).toContainText('label');
});
