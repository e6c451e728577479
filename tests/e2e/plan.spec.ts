import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from '@playwright/test';
import { sampleTrial as trial } from '../core/trial/samplePlan.ts';
import { expect, sample, test } from './app.ts';
import { axeFindings } from './axe.ts';

const PARTS = [
  'Trial',
  'Treatments',
  'Applications',
  'Layout',
  'Photos',
  'Calendar',
  'Scores',
  'Frame',
  'Labels',
  'Records',
];

const folder = fileURLToPath(new URL('../../sample-images/', import.meta.url));
const photoNames = readdirSync(`${folder}photos`).filter((name) => name.endsWith('.jpg'));

const csv = (name: string, lines: readonly string[]) => ({
  name,
  mimeType: 'text/csv',
  buffer: Buffer.from(`${lines.join('\r\n')}\r\n`),
});

/** The sample trial's plots as a person keeps them in a spreadsheet. */
const plotLines = [
  'plot,block,treatment,row,column,treatment_name',
  ...trial.plots.map(({ plot, block, treatment, row, column }) => {
    const { name } = trial.treatments.find((one) => one.treatment === treatment)!;
    return `${plot},${block},${treatment},${row},${column},"${name}"`;
  }),
];
const ratingLines = ['rating,timing', ...trial.ratingDates.map((date, index) => `R${index + 1},${date}`)];

const part = (page: Page, name: string) =>
  page
    .getByRole('navigation', { name: 'Parts of the plan' })
    .getByRole('link', { name, exact: true })
    .click();

async function startTrial(page: Page): Promise<void> {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByLabel('Name of the trial').fill('Outfield east');
  await page.getByLabel('Site').fill(trial.site);
  await page.getByLabel('Turf species').fill('perennial ryegrass');
  await page.getByRole('button', { name: 'Start the trial' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Outfield east' })).toBeVisible();
}

async function readPlots(page: Page): Promise<void> {
  await part(page, 'Layout');
  await page
    .getByLabel('Read plots (CSV)', { exact: true })
    .and(page.locator('input'))
    .setInputFiles(csv('plots.csv', plotLines));
  await expect(page.getByText('plots.csv was read.')).toBeVisible();
}

/** What there is to press on the screen that is lower or narrower than 44 px. */
const tooSmall = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('main :is(button, a, select, input, textarea, summary)')]
      .map((element) => ({ element, box: (element.closest('label') ?? element).getBoundingClientRect() }))
      .filter(({ box }) => box.width > 0 && (box.height < 44 || box.width < 44))
      .map(({ element, box }) => `${element.textContent || element.id} ${box.width} x ${box.height}`),
  );

/** How many cells of the board are in a state. */
const cellsOf = (page: Page, state: string) =>
  page
    .getByRole('table', { name: /^Photos by plot/ })
    .getByRole('button', { name: new RegExp(`: ${state}`) });

test('the sample trial set up from its tables: 64 photos dropped, all find their plots', async ({ page }) => {
  await startTrial(page);
  await page.getByLabel('Sowing date').fill(trial.sowingDate);
  await page.getByLabel('Sowing date').blur();
  await readPlots(page);
  await expect(
    page.getByRole('button', { name: /^Plot 101 , 1 in the walk, Treatment 3 ?growth regulator/ }),
  ).toBeVisible();

  await part(page, 'Treatments');
  await page.getByLabel('Treatment 1: untreated control').selectOption('included');
  await expect(page.getByText('No treatment is marked as untreated control')).toHaveCount(0);

  await part(page, 'Calendar');
  await page
    .getByLabel('Read rating dates (CSV)', { exact: true })
    .and(page.locator('input'))
    .setInputFiles(csv('ratings.csv', ratingLines));
  await expect(page.getByText('ratings.csv was read.')).toBeVisible();

  await part(page, 'Photos');
  await expect(cellsOf(page, 'missing')).toHaveCount(64);
  const transfer = await page.evaluateHandle(
    async (files) => {
      const data = new DataTransfer();
      for (const [name, base64] of files) {
        const bytes = Uint8Array.from(atob(base64!), (character) => character.charCodeAt(0));
        data.items.add(new File([bytes], name!, { type: 'image/jpeg' }));
      }
      return data;
    },
    photoNames.map((name) => [name, readFileSync(sample(name)).toString('base64')]),
  );
  await page.dispatchEvent('main', 'drop', { dataTransfer: transfer });
  await expect(cellsOf(page, 'there')).toHaveCount(64, { timeout: 60_000 });

  // what is planned is still there after the page is opened anew, with the photos at their plots
  await page.reload();
  await expect(page.getByRole('heading', { level: 1, name: 'Outfield east' })).toBeVisible();
  await expect(cellsOf(page, 'there')).toHaveCount(64);
});

test('a table with faults is refused whole, with row and cell; a good one is saved as it was read', async ({
  page,
}) => {
  await startTrial(page);
  await part(page, 'Layout');
  const input = page.getByLabel('Read plots (CSV)', { exact: true }).and(page.locator('input'));
  const faulty = [...plotLines];
  faulty[3] = faulty[3]!.replace(',4,', ',four,');
  await input.setInputFiles(csv('plots.csv', faulty));
  const alert = page.getByRole('alert');
  await expect(alert).toContainText('plots.csv was not read; the plan stays as it is.');
  await expect(alert).toContainText('Row 4, column "treatment" is "four"');
  await expect(page.getByRole('button', { name: /^Plot 101/ })).toHaveCount(0);

  await input.setInputFiles(csv('plots.csv', plotLines));
  await expect(page.getByRole('button', { name: /^Plot 101/ })).toBeVisible();
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save plots (CSV)' }).click();
  const saved = readFileSync(await (await download).path(), 'utf8');
  expect(saved.trim().split(/\r?\n/)).toHaveLength(17);
  expect(saved).toContain('101,3,1,1,1,');
});

test('treatments, an application and its days by keyboard and form: sowing moves what is planned', async ({
  page,
}) => {
  await startTrial(page);
  await page.getByLabel('Sowing date').fill('2027-03-08');
  await page.getByLabel('Sowing date').press('Enter');
  await part(page, 'Treatments');
  await page.getByRole('button', { name: 'Add a treatment' }).click();
  await page.getByRole('button', { name: 'Add a treatment' }).click();
  await page.getByLabel('Treatment 1: untreated control').selectOption('included');
  await part(page, 'Applications');
  await page.getByRole('button', { name: 'Add an application' }).click();
  const dialog = page.getByRole('dialog', { name: 'New application' });
  await dialog.getByLabel('What is done').fill('coded product L-31');
  await dialog.getByLabel('2 Treatment 2').check();
  await dialog.getByLabel('Timing').selectOption('from-sowing');
  await dialog.getByLabel('How many').fill('12');
  await dialog.getByLabel('Before or after').selectOption('before');
  await dialog.getByRole('button', { name: 'Add a product' }).click();
  await dialog.getByLabel('Product', { exact: true }).fill('coded product L-31');
  await dialog.getByLabel('Use', { exact: true }).selectOption('experimental');
  await dialog.getByLabel('Rate', { exact: true }).fill('1.5');
  await dialog.getByLabel('Unit', { exact: true }).fill('oz/1000 ft2');
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog.getByText(/an ounce of weight or a fluid ounce/)).toBeVisible();
  await dialog.getByLabel('Unit', { exact: true }).fill('fl oz/1000 ft2');
  // 1.5 x 29.5735295625 mL on 1000 x 0.09290304 m2, by the exact definitions of US gallon and foot
  await expect(dialog.getByText('= 4.775 L/ha')).toBeVisible();
  await dialog.getByRole('button', { name: 'Save' }).click();
  await expect(dialog).toHaveCount(0);
  await expect(page.getByRole('row', { name: /A1 24 Feb 2027/ })).toBeVisible();
  await expect(page.getByText('The product label and local regulations decide.')).toBeVisible();

  await part(page, 'Calendar');
  await page.getByLabel('New rating date').fill('five weeks from sowing');
  await page.getByRole('button', { name: 'Add a rating date' }).click();
  await expect(page.getByRole('alert')).toContainText('Write a day (2027-04-12)');
  await page.getByLabel('New rating date').fill('5 weeks after sowing');
  await page.getByRole('button', { name: 'Add a rating date' }).click();
  const rating = page.getByRole('listitem').filter({ hasText: 'Rating R1' });
  await expect(rating).toContainText('12 Apr 2027');

  await part(page, 'Trial');
  await page.getByLabel('Sowing date').fill('2027-03-15');
  await page.getByLabel('Sowing date').press('Enter');
  await part(page, 'Applications');
  await expect(page.getByRole('row', { name: /A1 3 Mar 2027/ })).toBeVisible();
  await part(page, 'Calendar');
  await expect(rating).toContainText('19 Apr 2027');
  const download = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Save as a calendar file' }).click();
  const calendar = readFileSync(await (await download).path(), 'utf8');
  expect(calendar).toContain('DTSTART;VALUE=DATE:20270303');
  expect(calendar).toContain('DTSTART;VALUE=DATE:20270419');

  // sowing after the first rating is said beside the field; what is done keeps its day and asks for a reason
  await page.getByLabel('Done on, rating R1').fill('2027-04-20');
  await page.getByLabel('Done on, rating R1').blur();
  await part(page, 'Trial');
  await page.getByLabel('Sowing date').fill('2027-05-01');
  await page.getByLabel('Sowing date').press('Enter');
  await expect(page.getByRole('region', { name: 'Sowing' }).getByRole('alert')).toContainText(
    'Sowing on 1 May 2027 lies after the first rating',
  );
});

test('a layout is drawn from its seed, and drawn again the same', async ({ page }) => {
  await startTrial(page);
  await part(page, 'Treatments');
  for (let count = 0; count < 3; count += 1)
    await page.getByRole('button', { name: 'Add a treatment' }).click();
  await expect(page.getByRole('row')).toHaveCount(4);
  await part(page, 'Layout');
  await page.getByLabel('Design').selectOption('latin-square');
  await page.getByLabel('Seed').fill('a lot');
  await page.getByRole('button', { name: 'Draw the layout' }).click();
  await expect(page.getByRole('alert')).toContainText('Seed is "a lot"; a number is wanted');
  await page.getByLabel('Seed').fill('7');
  await page.getByRole('button', { name: 'Draw the layout' }).click();
  const table = page.getByRole('table', { name: 'Plots in walking order' });
  await expect(table.getByRole('row')).toHaveCount(10);
  const first = await table.textContent();
  await page.getByLabel('Seed').fill('8');
  const again = async () => {
    await page.getByRole('button', { name: 'Draw the layout' }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Draw the layout' }).click();
    await expect(page.getByRole('dialog')).toHaveCount(0);
  };
  await again();
  await page.getByLabel('Seed').fill('7');
  await again();
  await expect(table).toHaveText(first!);
});

test('plots are swapped by keys and by dragging; a held photo is put to its plot by hand', async ({
  page,
}) => {
  await startTrial(page);
  await readPlots(page);
  const plot = (name: string) => page.getByRole('button', { name: new RegExp(`^Plot ${name} `) });
  await plot('101').focus();
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowRight');
  await expect(plot('102')).toBeFocused();
  await page.keyboard.press('Enter');
  await expect(plot('101')).toHaveAccessibleName(/Treatment 1 ?untreated control/);
  await expect(plot('102')).toHaveAccessibleName(/Treatment 3/);
  await plot('101').dragTo(plot('102'));
  await expect(plot('101')).toHaveAccessibleName(/Treatment 3/);

  await part(page, 'Calendar');
  await page.getByLabel('New rating date').fill('2027-05-17');
  await page.getByRole('button', { name: 'Add a rating date' }).click();
  await part(page, 'Photos');
  const input = page.getByLabel('Open photos').and(page.locator('input[type=file]'));
  await input.setInputFiles({
    name: 'holiday.jpg',
    mimeType: 'image/jpeg',
    buffer: readFileSync(sample('2027-05-17_101.jpg')),
  });
  await expect(page.getByRole('heading', { name: '1 photo waits for you' })).toBeVisible();
  await page.getByLabel('Plot of holiday.jpg').selectOption('101');
  await page.getByLabel('Date of holiday.jpg').selectOption('2027-05-17');
  await page.getByRole('button', { name: 'It belongs here: holiday.jpg' }).click();
  await expect(page.getByRole('button', { name: 'Plot 101, place 1, 17 May 2027: there' })).toBeVisible();
  await expect(page.getByRole('heading', { name: /waits? for you/ })).toHaveCount(0);

  await page
    .getByRole('button', { name: 'Plot 101, place 1, 17 May 2027: there' })
    .dragTo(page.getByRole('button', { name: 'Plot 102, place 1, 17 May 2027: missing' }));
  await expect(page.getByRole('button', { name: 'Plot 102, place 1, 17 May 2027: there' })).toBeVisible();

  // both moves of the photo stand in the audit, with who and why
  await part(page, 'Records');
  const moves = page.getByRole('row', { name: /photos\[holiday\.jpg\]\.plot/ });
  await expect(moves).toHaveCount(2);
  await expect(moves.first()).toContainText('photo put to its plot by hand');
});

test('the start says at each field what is needed before its buttons work', async ({ page }) => {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByRole('button', { name: 'Use the sample plan' }).click();
  await expect(page.getByRole('alert')).toHaveText([/^Write your name or initials first/]);
  await page.getByRole('button', { name: 'Start the trial' }).click();
  await expect(page.getByRole('alert')).toHaveCount(4);
  await page.getByLabel('Your name or initials').fill('K');
  await expect(page.getByRole('alert')).toHaveCount(3);
  await page.getByRole('button', { name: 'Use the sample plan' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /Outfield east/ })).toBeVisible();
});

test('an adjacent control is laid beside the blocks, stays out of the drawing and is taken away again', async ({
  page,
}) => {
  await startTrial(page);
  await readPlots(page);
  await part(page, 'Treatments');
  await page.getByRole('button', { name: 'Add a treatment' }).click();
  await page.getByLabel('Treatment 5: untreated control').selectOption('adjacent');
  await part(page, 'Layout');
  await page.getByRole('button', { name: 'Treatment 5: lay it beside the blocks' }).click();
  for (const name of ['105', '205', '305', '405']) {
    await expect(
      page.getByRole('button', { name: new RegExp(`^Plot ${name} .*beside the plots`) }),
    ).toBeVisible();
  }
  await expect(page.getByText(/in this plan contradict/)).toHaveCount(0);
  await page.getByRole('button', { name: 'Treatment 5: take away its 4 plots' }).click();
  await expect(page.getByRole('button', { name: /^Plot \d05 / })).toHaveCount(0);
});

test('with a finger a plot is held, then dragged onto another; a quick move scrolls instead', async ({
  profile,
}) => {
  const page = await profile.open({ viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true });
  await startTrial(page);
  await readPlots(page);
  const plot = (name: string) => page.getByRole('button', { name: new RegExp(`^Plot ${name} `) });
  const touch = await page.context().newCDPSession(page);
  const drag = async (from: string, to: string, holdMs: number) => {
    await plot(from).evaluate((element) => element.scrollIntoView({ block: 'center' }));
    const [start, end] = [await plot(from).boundingBox(), await plot(to).boundingBox()];
    const at = (box: typeof start) => ({ x: box!.x + box!.width / 2, y: box!.y + box!.height / 2 });
    const send = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]) =>
      touch.send('Input.dispatchTouchEvent', { type, touchPoints: points });
    await send('touchStart', [at(start)]);
    if (holdMs > 0) await expect(plot(from)).toHaveAttribute('data-dragged', 'true');
    await send('touchMove', [at(end)]);
    await send('touchEnd', []);
  };
  await drag('101', '201', 1);
  await expect(plot('201')).toHaveAccessibleName(/Treatment 3/);
  await drag('201', '101', 0);
  await expect(plot('201')).toHaveAccessibleName(/Treatment 3/);
});

test('scores are entered in walking order, blind; labels, frame places and deviations', async ({ page }) => {
  await page.getByRole('link', { name: 'Plan', exact: true }).click();
  await page.getByLabel('Your name or initials').fill('K');
  await page.getByRole('button', { name: 'Use the sample plan' }).click();
  await expect(page.getByRole('heading', { level: 1, name: /Outfield east/ })).toBeVisible();

  await part(page, 'Scores');
  await page.getByRole('button', { name: 'Add turf quality' }).click();
  const entry = page.getByRole('region', { name: 'Enter scores' });
  for (const plot of trial.walkingOrder.slice(0, 5)) {
    const field = entry.getByLabel(`Turf quality, plot ${plot}`);
    await expect(field).toHaveValue('');
    await field.fill('6.5');
    await field.press('Enter');
  }
  await expect(entry.getByText('5 of 16 plots entered by this person.')).toBeVisible();
  await expect(entry).not.toContainText('untreated');
  await entry.getByLabel(/^Turf quality, plot/).fill('9.3');
  await entry.getByRole('button', { name: 'Keep' }).click();
  await expect(entry.getByText('Scores lie between 1 and 9.')).toBeVisible();

  await part(page, 'Photos');
  await page.getByLabel('Board of').selectOption('Turf quality');
  const scored = page.getByRole('table', { name: /^Turf quality: who scored/ });
  await expect(scored.getByRole('cell', { name: '1 score' })).toHaveCount(5);
  await expect(scored).not.toContainText('6.5');

  await part(page, 'Labels');
  const sheet = page.getByRole('list', { name: 'Plot labels in walking order' });
  await expect(sheet.getByRole('img')).toHaveCount(16);
  await expect(sheet).not.toContainText('untreated');

  await part(page, 'Trial');
  const size = [1500, 2000, 1200, 1700];
  const labels = ['Gross width (mm)', 'Gross length (mm)', 'Net width (mm)', 'Net length (mm)'];
  for (const [index, label] of labels.entries()) await page.getByLabel(label).fill(String(size[index]));
  await page.getByLabel('Net length (mm)').press('Enter');
  await part(page, 'Frame');
  for (const [label, value] of [
    ['Places in a plot', '2'],
    ['Frame, inner width (mm)', '500'],
    ['Frame, inner length (mm)', '500'],
    ['Least distance from the edge of the net plot (mm)', '50'],
    ['Least gap between frames (mm)', '100'],
  ] as const) {
    await page.getByLabel(label).fill(value);
  }
  await page.getByRole('button', { name: 'Draw the places' }).click();
  // two places in each of 16 plots, and the row of headings
  const places = page.getByRole('table', { name: /^Places of the frame/ });
  await expect(places.getByRole('row')).toHaveCount(33);

  await part(page, 'Records');
  await page.getByLabel('Plot to leave out').selectOption('203');
  await page.getByLabel('Reason to leave it out').fill('flooded');
  await page.getByRole('button', { name: 'Leave it out' }).click();
  await expect(page.getByText('All classes and variables: flooded')).toBeVisible();
  await expect(page.getByRole('row', { name: /exclusions\[X1\]/ })).toBeVisible();
  await page.getByLabel('What went otherwise').fill('plot 203 flooded after a storm');
  await page.getByLabel('Effect on the results').fill('thin stand');
  await page.getByLabel('Reason', { exact: true }).fill('blocked drain');
  await page.getByRole('button', { name: 'Note a deviation' }).click();
  await page.getByRole('button', { name: 'Take back deviation D1' }).click();
  // noted and taken back: both stand in the audit
  await expect(page.getByRole('row', { name: /deviations\[D1\]/ })).toHaveCount(2);
});

for (const [name, options] of [
  ['desk, light', { colorScheme: 'light' }],
  ['desk, dark', { colorScheme: 'dark' }],
  ['phone', { colorScheme: 'light', viewport: { width: 390, height: 844 }, isMobile: true, hasTouch: true }],
] as const) {
  test(`axe finds nothing in any part of the plan: ${name}`, async ({ profile }) => {
    const page = await profile.open(options);
    const clean = async (state: string) => expect.soft(await axeFindings(page), state).toEqual([]);
    await page.getByRole('link', { name: 'Plan', exact: true }).click();
    await expect(page.getByRole('heading', { name: 'Plan a trial' })).toBeVisible();
    await clean('start');
    await page.getByLabel('Your name or initials').fill('K');
    await page.getByRole('button', { name: 'Use the sample plan' }).click();
    await expect(page.getByRole('heading', { level: 1, name: /Outfield east/ })).toBeVisible();
    for (const one of PARTS) {
      await part(page, one);
      await clean(one);
      expect
        .soft(
          await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth),
          `${one} is as wide as the screen`,
        )
        .toBe(true);
      if (name === 'phone') expect.soft(await tooSmall(page), one).toEqual([]);
    }
    await part(page, 'Applications');
    await page.getByRole('button', { name: 'Edit application A1' }).click();
    await expect(page.getByRole('dialog')).toBeVisible();
    await clean('application');
    await page.keyboard.press('Escape');
    await part(page, 'Photos');
    await page.getByRole('button', { name: /^Plot 101, place 1, 12 Apr/ }).click();
    await clean('cell');
  });
}
