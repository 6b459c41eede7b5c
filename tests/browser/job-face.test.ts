import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from './bench.ts';
import {
	AC_DC,
	answer,
	heading,
	HOT_OUTPUT,
	liveInstead,
	onward,
	passGate,
	power,
	press,
	startJob,
	stepPane,
	suspectFirst,
	throughAllPages,
	unfold
} from './job-steps.ts';

for (const colorScheme of ['light', 'dark'] as const)
	test(`axe finds nothing on any page of a job, and the browser complains of none, by ${colorScheme} theme`, async ({
		page,
		complaints
	}) => {
		// Ten pages, each looked over whole.
		test.slow();
		await page.emulateMedia({ colorScheme });
		await throughAllPages(page, async (name) => {
			const { violations } = await new AxeBuilder({ page }).analyze();
			const found = violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(' ')}`);
			expect(found, name).toEqual([]);
		});
		expect(complaints).toEqual([]);
	});

test('no page of a job runs off a screen of 320 px', async ({ page }) => {
	await page.setViewportSize({ width: 320, height: 640 });
	await throughAllPages(page, async (name) => {
		const over = await page.evaluate(() =>
			[...document.querySelectorAll('body *')]
				.filter(
					(one) =>
						one.checkVisibility() && !one.closest('svg') && one.getBoundingClientRect().right > innerWidth + 1
				)
				.map((one) => one.outerHTML.slice(0, 120))
		);
		const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
		expect({ over: wide > 0 ? over : [], wide }, name).toEqual({ over: [], wide: 0 });
	});
});

test('a place that is told down to its pin fits a phone of 320 px', async ({ page }) => {
	await page.setViewportSize({ width: 320, height: 640 });
	await startJob(page, { heard: {}, flow: HOT_OUTPUT, playing: true });
	await expect(stepPane(page).getByText(/pin 7, counted from the wiring side/)).toBeVisible();
	expect(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth)).toBe(0);
});

test('answers are 64 px high and 8 px apart on a phone of 360 px', async ({ page }) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await startJob(page, { playing: true });
	const boxes = await stepPane(page)
		.getByRole('group', { name: 'Answers' })
		.getByRole('button')
		.evaluateAll((buttons) => buttons.map((button) => button.getBoundingClientRect().toJSON() as DOMRect));
	expect(boxes.length).toBe(3);
	for (const [index, { top, height }] of boxes.entries()) {
		expect(height).toBeGreaterThanOrEqual(64);
		const above = boxes[index - 1];
		if (above) expect(top - above.bottom).toBeGreaterThanOrEqual(8);
	}
	for (const name of ['Cannot tell', 'Skip for now'])
		expect((await stepPane(page).getByRole('button', { name }).boundingBox())?.height).toBeGreaterThanOrEqual(
			64
		);
});

test('a new question begins at its heading, below the bar', async ({ page }) => {
	await page.setViewportSize({ width: 360, height: 740 });
	await startJob(page, { playing: true });
	await answer(page);
	const other = liveInstead(page).first();
	await other.scrollIntoViewIfNeeded();
	await onward(page, () => other.click());
	const bar = (await power(page).boundingBox())!;
	await expect(heading(page)).toBeInViewport();
	const head = (await heading(page).boundingBox())!;
	expect(head.y).toBeGreaterThan(bar.y + bar.height);
});

test('on paper the report has no controls, and lists what was changed and what was not tested', async ({
	page
}) => {
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT, playing: true });
	await suspectFirst(page);
	await onward(page, () => press(page, 'Repair without proof'));
	await passGate(page);
	await onward(page, () => press(page, 'Changed'));
	await passGate(page);
	await onward(page, () => press(page, 'The symptom is gone'));
	await onward(page, () => press(page, 'Not tested'));
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Report for print' }).click();
	await page.emulateMedia({ media: 'print' });
	const main = page.getByRole('main');
	await expect(main.getByRole('button', { name: 'Print' })).toBeHidden();
	await expect(main.getByRole('link')).toHaveCount(0);
	await expect(main).toContainText(/coupling capacitor/i);
	await expect(main).toContainText(/without proof/);
	await expect(main).toContainText(/not tested/);
	await expect(main).toContainText(/licensed practice come first/);
});
