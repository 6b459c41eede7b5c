import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import { AC_DC, events, HOT_OUTPUT, startJob, stepPane, takePoint, unfold } from './job-steps.ts';
import { jpeg, JPEG } from './picture-files.ts';

const GRID = 'Control grid of the output valve';
const sheet = (page: Page) => page.getByRole('application');
const marks = (page: Page) => page.getByRole('list', { name: 'Marks on this sheet' });
const head = (page: Page) => page.getByRole('heading', { level: 1 });
const choice = (page: Page) => page.getByLabel('Mark', { exact: true });

async function toDiagram(page: Page): Promise<void> {
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Diagram as work sheet' }).click();
	await expect(head(page)).toHaveText('Diagram as work sheet');
}

async function attach(page: Page, what = 'diagram'): Promise<void> {
	const buffer = await jpeg(page, 1600, 1000);
	await page
		.getByLabel(`Attach the ${what}, file`)
		.setInputFiles({ name: 'sheet.jpg', mimeType: JPEG, buffer });
	await expect(sheet(page)).toBeVisible();
	await expect
		.poll(() =>
			sheet(page)
				.locator('img')
				.evaluate((image: HTMLImageElement) => image.naturalWidth)
		)
		.toBeGreaterThan(0);
}

const marked = async (page: Page) =>
	(await events(page)).flatMap((one) => (one.kind === 'marked' ? [one.data] : []));

test('a test point is marked by a tap; the step shows the place, offline and after a reload', async ({
	page,
	context,
	complaints
}) => {
	await page.goto('./');
	await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT, playing: true });
	await context.setOffline(true);
	await toDiagram(page);
	await attach(page);
	await choice(page).selectOption({ label: GRID });
	await sheet(page).click({ position: { x: 120, y: 150 } });
	await expect(marks(page).getByRole('listitem')).toHaveCount(1);
	await expect(sheet(page).getByRole('button', { name: `${GRID}, test point` })).toBeVisible();
	const [mark] = await marked(page);
	expect(mark).toMatchObject({ point: 'output.grid' });
	expect(mark!.x).toBeGreaterThan(0);
	expect(mark!.x).toBeLessThan(1);

	await page.reload();
	await expect(marks(page).getByRole('listitem')).toHaveCount(1);
	await page.getByRole('link', { name: 'Back to the job' }).click();
	await takePoint(page, GRID);
	const crop = stepPane(page).getByRole('figure');
	await expect(crop).toContainText('ringed on diagram 1');
	// The mark lies under the middle of the ring.
	const off = await crop.evaluate((figure, at) => {
		const [image, ring] = [figure.querySelector('img')!, figure.querySelector('svg')!];
		const [picture, round] = [image.getBoundingClientRect(), ring.getBoundingClientRect()];
		return [
			picture.left + at.x * picture.width - (round.left + round.width / 2),
			picture.top + at.y * picture.height - (round.top + round.height / 2)
		];
	}, mark!);
	expect(Math.hypot(...off)).toBeLessThan(3);
	expect(complaints).toEqual([]);
});

test('by keyboard alone: zoom, move, mark, and back to the mark from the list', async ({ page }) => {
	await startJob(page);
	await toDiagram(page);
	await attach(page);
	await choice(page).focus();
	await choice(page).selectOption({ label: GRID });
	await sheet(page).focus();
	for (const key of ['+', '+', 'ArrowRight', 'ArrowRight', 'ArrowDown']) await page.keyboard.press(key);
	await page.keyboard.press('Enter');
	await expect(marks(page).getByRole('listitem')).toHaveCount(1);
	const [mark] = await marked(page);
	expect(mark!.x).toBeGreaterThan(0.5);
	expect(mark!.y).toBeGreaterThan(0.5);
	await sheet(page).focus();
	await page.keyboard.press('0');
	await marks(page)
		.getByRole('button', { name: `Show ${GRID}` })
		.focus();
	await page.keyboard.press('Enter');
	const onSheet = sheet(page).getByRole('button', { name: new RegExp(GRID) });
	await expect(onSheet).toHaveAttribute('aria-pressed', 'true');
	const off = await onSheet.evaluate((button) => {
		const window = button.closest('[role=application]')!.getBoundingClientRect();
		const box = button.getBoundingClientRect();
		return Math.abs(box.left + box.width / 2 - (window.left + window.width / 2));
	});
	expect(off).toBeLessThan(4);
});

test('the mark of a part shows how the part stands', async ({ page }) => {
	await startJob(page);
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Parts of the set' }).click();
	await expect(head(page)).toHaveText('Parts of the set');
	await page.getByRole('heading', { name: 'Type or paste a list' }).click();
	await page.getByRole('textbox', { name: 'Parts, one a line' }).fill('C12 47n paper output coupling');
	await page.getByRole('button', { name: 'List 1 part' }).click();
	await expect(page.getByRole('list', { name: 'Parts of the set' }).locator('details')).toHaveCount(1);
	await page.getByRole('link', { name: 'Diagram as work sheet' }).click();
	await expect(head(page)).toHaveText('Diagram as work sheet');
	await attach(page, 'chassis');
	await choice(page).selectOption({ label: 'C12' });
	await page.getByRole('button', { name: 'Put it at the cross' }).click();
	await expect(sheet(page).getByRole('button', { name: 'C12, untouched' })).toBeVisible();
	await marks(page).getByRole('button', { name: 'Show C12' }).click();
	await page.getByRole('link', { name: 'To the parts of the set' }).click();
	await expect(head(page)).toHaveText('Parts of the set');
	await page.getByRole('list', { name: 'Parts of the set' }).locator('summary').first().click();
	await page.getByRole('button', { name: 'Tested bad' }).click();
	await expect(page.getByRole('list', { name: 'Parts of the set' })).toContainText('tested bad');
	await page.getByRole('link', { name: 'Diagram as work sheet' }).click();
	await expect(sheet(page).getByRole('button', { name: 'C12, tested bad' })).toBeVisible();
	await page.getByRole('button', { name: 'Undo the last mark' }).click();
	await expect(sheet(page).getByRole('button', { name: /C12/ })).toHaveCount(0);
});

test('volts printed at a point judge the readings there', async ({ page }) => {
	await startJob(page);
	await toDiagram(page);
	await attach(page);
	await choice(page).selectOption({ label: 'Anode of the output valve' });
	await page.getByRole('button', { name: 'Put it at the cross' }).click();
	await marks(page)
		.getByRole('button', { name: /^Show Anode/ })
		.click();
	await page.getByLabel('Volts printed there').fill('225');
	await page.getByRole('button', { name: 'Keep the volts' }).click();
	await expect(page.getByText('Readings there are judged by it')).toBeVisible();
	const kept = (await events(page)).findLast((one) => one.kind === 'set-described');
	expect(kept?.data).toMatchObject({ volts: { 'output.anode': 225 } });
	await page.reload();
	await marks(page)
		.getByRole('button', { name: /^Show Anode/ })
		.click();
	await expect(page.getByLabel('Volts printed there')).toHaveValue('225 V');
});

test('two fingers zoom the sheet about the place between them, move it, and set no mark; one finger drags it', async ({
	page
}) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await startJob(page);
	await toDiagram(page);
	await attach(page);
	await choice(page).selectOption({ label: GRID });
	await sheet(page).scrollIntoViewIfNeeded();
	const frame = (await sheet(page).boundingBox())!;
	const image = async () => (await sheet(page).locator('img').boundingBox())!;
	const fingers = await page.context().newCDPSession(page);
	const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', ...places: [number, number][]) =>
		fingers.send('Input.dispatchTouchEvent', {
			type,
			touchPoints: places.map(([x, y], id) => ({ x: frame.x + x, y: frame.y + y, id }))
		});
	const middle: [number, number] = [150, 110];
	const pinch = async (from: number, to: number, move = 0) => {
		const at = (apart: number, along = 0): [number, number][] => [
			[middle[0] - apart + along, middle[1]],
			[middle[0] + apart + along, middle[1]]
		];
		await touch('touchStart', ...at(from));
		for (let step = 1; step <= 8; step++)
			await touch('touchMove', ...at(from + ((to - from) * step) / 8, (move * step) / 8));
		await touch('touchEnd');
	};
	/** Share of the sheet that lies between the fingers. */
	const between = (box: { x: number; width: number }, along = 0) =>
		(frame.x + middle[0] + along - box.x) / box.width;

	const whole = await image();
	await pinch(30, 75);
	const near = await image();
	expect(near.width / whole.width).toBeCloseTo(2.5, 1);
	expect(between(near)).toBeCloseTo(between(whole), 1);
	await pinch(75, 75, 40);
	const moved = await image();
	expect(moved.width).toBeCloseTo(near.width, 0);
	expect(moved.x - near.x).toBeGreaterThan(30);
	await touch('touchStart', middle);
	for (let step = 1; step <= 8; step++) await touch('touchMove', [middle[0] - 6 * step, middle[1]]);
	await touch('touchEnd');
	const dragged = await image();
	expect(dragged.x - moved.x).toBeLessThan(-30);
	await pinch(75, 25);
	expect((await image()).width).toBeLessThan(dragged.width / 2);
	expect(await marked(page)).toEqual([]);
	await touch('touchStart', middle);
	await touch('touchEnd');
	await expect(marks(page).getByRole('listitem')).toHaveCount(1);
});

test('nothing of the page is wider than 320 px, and axe finds nothing on it', async ({ page }) => {
	await page.setViewportSize({ width: 320, height: 700 });
	await startJob(page);
	await toDiagram(page);
	await attach(page);
	await choice(page).selectOption({ label: GRID });
	await page.getByRole('button', { name: 'Put it at the cross' }).click();
	await marks(page).getByRole('button', { name: /^Show/ }).click();
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
	const { violations } = await new AxeBuilder({ page }).analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
});
