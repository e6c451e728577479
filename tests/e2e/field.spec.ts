import { createHash } from 'node:crypto';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import sharp from 'sharp';
import type { TrialPlan } from '../../src/core/trial/trialPlan.ts';
import {
  appliedProduct,
  doneOn,
  plannedApplication,
  samplePlan,
  sampleTrial,
} from '../core/trial/samplePlan.ts';
import {
  addPhotos,
  test as base,
  expect,
  measured,
  type PickedFile,
  Profile,
  sample,
  sampleAs,
} from './app.ts';
import { axeFindings } from './axe.ts';
import { built, type Host, startHost } from './host.ts';

const PHONE = { viewport: { width: 390, height: 844 }, deviceScaleFactor: 2, isMobile: true, hasTouch: true };
const DATE = '2027-05-17';
/** A photo of plot 102 taken with far too little light. */
const darkPhoto = (): Promise<Buffer> =>
  sharp(sample(`${DATE}_102.jpg`))
    .linear(0.08, 0)
    .jpeg({ quality: 95 })
    .toBuffer();

const test = base.extend<{ host: Host; phone: Profile }>({
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the fixtures a function needs from its pattern
  host: async ({}, use) => {
    const host = await startHost(built);
    await use(host);
    await host.goAway();
  },
  phone: async ({ host, complaints }, use) => {
    const folder = await mkdtemp(join(tmpdir(), 'swardbook-field-'));
    const phone = new Profile(join(folder, 'profile'), host.address, complaints);
    await use(phone);
    await phone.close();
    await rm(folder, { recursive: true, force: true, maxRetries: 5 });
  },
});

/** The sample trial with places for its frame. */
const fieldPlan = (change: Partial<TrialPlan> = {}): TrialPlan => ({
  ...samplePlan(),
  framePlan: {
    placesPerPlot: 1,
    draw: 'fixed',
    seed: 7,
    frameWidthMm: 500,
    frameLengthMm: 500,
    edgeMm: 100,
    apartMm: 0,
    measuredFrom: 'near-left',
    markedFrameCorner: 'near-left',
  },
  ...change,
});

async function openPlan(page: Page, plan: TrialPlan): Promise<void> {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Your name or initials').fill('K');
  const file = Buffer.from(JSON.stringify(plan));
  await page
    .locator('main input[type=file]')
    .setInputFiles({ name: 'plan.json', mimeType: 'application/json', buffer: file });
  await expect(page.getByRole('heading', { level: 1, name: plan.trial.name })).toBeVisible();
}

const plotTitle = (page: Page, plot: string) =>
  page.getByRole('heading', { level: 1, name: `Plot ${plot}`, exact: true });
const actions = (page: Page) => page.getByRole('toolbar', { name: 'What to do here' });
const cameraButton = (page: Page) => actions(page).getByRole('button', { name: /Take the photo of plot/ });

/** Opens the camera as a thumb does, and hands a photo over as the camera does. */
async function shoot(page: Page, photo: PickedFile): Promise<void> {
  const chooser = page.waitForEvent('filechooser');
  await cameraButton(page).tap();
  await (await chooser).setFiles(photo as never);
}

const verdict = (page: Page) => page.getByRole('region', { name: 'Photo quality' }).getByRole('heading');

/** What there is to press that a gloved thumb would miss. */
const tooSmall = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('button, a, select, input, textarea, summary')]
      .filter((element) => element.checkVisibility())
      .map((element) => ({ element, box: element.getBoundingClientRect() }))
      .filter(({ box }) => box.width > 1 && box.bottom > 0 && (box.width < 56 || box.height < 56))
      .map(({ element, box }) => `${element.textContent || element.ariaLabel} ${box.width} x ${box.height}`),
  );

/** What a screen reader, a thumb and a narrow phone find wrong. */
async function sound(page: Page): Promise<void> {
  expect(await axeFindings(page)).toEqual([]);
  expect(await tooSmall(page)).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBeLessThanOrEqual(0);
}

interface StoredPhoto {
  readonly name: string;
  readonly sha256: string;
  readonly plot: string | null;
  readonly ratingDate: string | null;
  readonly replaced?: { readonly plot: string };
}

/** What the database itself holds, past the program. */
const storedPhotos = (page: Page) =>
  page.evaluate(
    () =>
      new Promise<StoredPhoto[]>((resolve, reject) => {
        const opening = indexedDB.open('swardbook');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction('photos').objectStore('photos').getAll();
          all.onerror = () => reject(all.error);
          all.onsuccess = () => {
            opening.result.close();
            resolve(all.result);
          };
        };
      }),
  );

const sha256 = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex');

test('a whole day in the field without a network, with a crash, a reload and a bad photo: nothing is lost', async ({
  phone,
  host,
}) => {
  const options = { ...PHONE, serviceWorkers: 'allow' } as const;
  let page = await phone.open(options);
  await expect(page.getByRole('status').filter({ hasText: /^Ready for the field/ })).toBeVisible();
  await openPlan(page, fieldPlan());
  await addPhotos(page, ['2027-04-12_102.jpg']);
  await page
    .getByRole('navigation', { name: 'Screens' })
    .getByRole('link', { name: 'Photos', exact: true })
    .click();
  await measured(page, 1);
  await host.goAway();
  await expect(page.getByText('1 photo exists only on this phone.')).toBeVisible();

  await page.getByRole('link', { name: 'In the field' }).tap();
  await expect(page.getByRole('heading', { name: 'Which rating date?' })).toBeVisible();
  await sound(page);
  await page.getByRole('link', { name: /^17 May 2027/ }).tap();
  await expect(page.getByText('No application is noted as done here.')).toBeVisible();
  await page.getByRole('button', { name: 'Note them' }).tap();
  await page.getByLabel('Days since mowing').fill('2');
  await page.getByLabel('Dew').selectOption('true');
  await sound(page);
  await page.getByRole('button', { name: 'Save', exact: true }).tap();
  await expect(page.getByText('Noted.')).toBeVisible();
  await sound(page);

  const walk = sampleTrial.walkingOrder;
  const dark = await darkPhoto();
  await page.getByRole('button', { name: `Go to plot ${walk[0]}` }).tap();
  const photoOf = (plot: string) => `${DATE}_${plot}.jpg`;
  const nameOf = (plot: string) => `IMG_${1000 + walk.indexOf(plot)}.jpg`;
  for (const [index, plot] of walk.entries()) {
    await expect(plotTitle(page, plot)).toBeVisible();
    await expect(page.getByText(`${index} of 16`)).toBeVisible();
    if (index === 0) {
      await expect(page.getByText(/\d\.\d\d m across/)).toBeVisible();
      await expect(page.getByText('No earlier photo of this place.')).toBeVisible();
      await sound(page);
    }
    if (index === 1) {
      await expect(page.getByRole('img', { name: 'Plot 102 on 12 April 2027' })).toBeVisible();
      await shoot(page, { name: 'IMG_0999.jpg', mimeType: 'image/jpeg', buffer: dark });
      await expect(verdict(page)).toHaveText('Take it again');
      await expect(page.getByText(/^Underexposed: .* take it again\.$/)).toBeVisible();
      await expect(cameraButton(page)).toHaveText('Take again');
      await sound(page);
    }
    if (index === 5) {
      // the camera is open when the phone ends everything
      const chooser = page.waitForEvent('filechooser');
      await cameraButton(page).tap();
      await chooser;
      await phone.kill();
      page = await phone.open(options);
      await expect(page.getByRole('alert')).toHaveText(`The photo of plot ${plot} did not arrive.`);
      await page.getByRole('link', { name: 'Go on in the field: 17 May 2027' }).tap();
    }
    if (index === 9) {
      const chooser = page.waitForEvent('filechooser');
      await cameraButton(page).tap();
      await chooser;
      await page.reload();
    }
    if (index === 5 || index === 9) {
      await expect(plotTitle(page, plot)).toBeVisible();
      await expect(page.getByRole('alert')).toContainText(
        `The photo of plot ${plot} did not arrive. Take it again.`,
      );
      await sound(page);
    }
    if (index === 9) {
      // it was taken all the same, and lies among the phone's pictures
      const chooser = page.waitForEvent('filechooser');
      await page.getByRole('button', { name: 'It is on the phone: choose it' }).tap();
      await (await chooser).setFiles((await sampleAs(photoOf(plot), nameOf(plot))) as never);
    } else if (index < 15) await shoot(page, await sampleAs(photoOf(plot), nameOf(plot)));
    else {
      await actions(page).getByRole('button', { name: 'Leave out' }).tap();
      await sound(page);
      await page.getByRole('button', { name: 'standing water' }).tap();
      break;
    }
    await expect(verdict(page)).toHaveText(/^(Good|Usable|Take it again)/);
    await expect(page.getByText(`${index + 1} of 16`)).toBeVisible();
    if (index === 1) await expect(page.getByText('1 photo of this place replaced')).toBeVisible();
    await actions(page)
      .getByRole('button', { name: /^(Next|To the end)/ })
      .tap();
  }

  await expect(page.getByRole('heading', { name: 'End of the round' })).toBeVisible();
  await expect(page.getByText('15 of 16 photographed.')).toBeVisible();
  await sound(page);
  // the water has gone
  await page.getByRole('button', { name: '401: standing water' }).tap();
  await shoot(page, await sampleAs(photoOf('401'), nameOf('401')));
  await expect(verdict(page)).toBeVisible();
  await actions(page).getByRole('button', { name: 'To the end of the round' }).tap();
  await expect(page.getByText('All 16 photos are there.')).toBeVisible();
  await expect(page.getByText('17 photos exist only on this phone.')).toBeVisible();

  const photos = await storedPhotos(page);
  const ofDay = photos.filter(({ ratingDate }) => ratingDate === DATE);
  expect(ofDay).toHaveLength(16);
  for (const plot of walk) {
    const there = ofDay.filter((photo) => photo.plot === plot);
    expect(there.map(({ sha256: hash }) => hash)).toEqual([sha256(await readFile(sample(photoOf(plot))))]);
  }
  const [replaced] = photos.filter((photo) => photo.replaced);
  expect(replaced).toMatchObject({ name: 'IMG_0999.jpg', plot: null, replaced: { plot: '102' } });
  expect(replaced!.sha256).toBe(sha256(dark));

  // phones have no picker for places of files: there it is a download
  await page.evaluate(() => Object.defineProperty(window, 'showSaveFilePicker', { value: undefined }));
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save 17 May 2027' }).tap();
  expect((await download).suggestedFilename()).toBe('K7QF3M-archive-2027-05-17.zip');
  await expect(page.getByText('Every photo has been saved in an archive.')).toBeVisible();
  await page.getByRole('link', { name: 'Done: show the photos' }).tap();
  await expect(page.getByText('1 photo exists only on this phone.')).toBeVisible();
});

test('nobody is led onto a plot before the re-entry time, and either hand reaches everything', async ({
  profile,
}) => {
  const now = new Date();
  const pad = (value: number) => String(value).padStart(2, '0');
  const today = `${now.getFullYear()}-${pad(now.getMonth() + 1)}-${pad(now.getDate())}`;
  const page = await profile.open({ ...PHONE, viewport: { width: 360, height: 640 } });
  await openPlan(
    page,
    fieldPlan({
      applications: [
        plannedApplication({
          id: 'A1',
          products: [appliedProduct()],
          reEntryHours: 48,
          progress: doneOn(today, '00:05'),
        }),
      ],
    }),
  );
  await page.getByRole('link', { name: 'In the field' }).tap();
  await page.getByRole('link', { name: /^21 June 2027/ }).tap();
  await page.getByRole('button', { name: 'Go to plot 101' }).tap();
  const warning = page.getByRole('alert');
  await expect(warning).toContainText('nobody may step on the plots yet');
  await expect(warning).toContainText('Last application: coded product L-31');
  await expect(warning).toContainText('The product label and local regulations decide.');
  await expect(plotTitle(page, '101')).toHaveCount(0);
  await sound(page);
  await page.reload();
  await expect(warning).toContainText('nobody may step on the plots yet');
  await page.getByRole('button', { name: 'I have read the label and go on' }).tap();
  await expect(plotTitle(page, '101')).toBeVisible();
  await expect(page.getByText('Keep off.')).toBeVisible();
  await sound(page);

  const centre = async () => {
    const box = (await cameraButton(page).boundingBox())!;
    expect(box.y + box.height / 2).toBeGreaterThan(640 / 2);
    return box.x + box.width / 2;
  };
  expect(await centre()).toBeGreaterThan(180);
  await page.getByRole('button', { name: 'More', exact: true }).tap();
  await sound(page);
  await page.getByRole('button', { name: 'Left hand' }).tap();
  await page.getByRole('button', { name: 'Full sun (black on white)' }).tap();
  await page.getByRole('button', { name: 'Close' }).tap();
  expect(await centre()).toBeLessThan(180);
  await sound(page);

  await page.getByRole('button', { name: /^Map: you are at plot 101/ }).tap();
  await sound(page);
  await page.getByRole('button', { name: '303: to do' }).tap();
  await expect(plotTitle(page, '303')).toBeVisible();
  // where a person stands outlives the page, and what was acknowledged is not asked again
  await page.reload();
  await expect(plotTitle(page, '303')).toBeVisible();
});
