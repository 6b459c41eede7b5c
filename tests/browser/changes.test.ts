import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import {
	AC_DC,
	events,
	hear,
	heading,
	HOT_OUTPUT,
	onward,
	passGate,
	press,
	proposal,
	startJob,
	stepPane,
	suspectFirst,
	takePoint,
	traceOn,
	unfold
} from './job-steps.ts';
import { jpeg, JPEG } from './picture-files.ts';

const GRID = 'Control grid of the output valve';
const group = (page: Page, name: string | RegExp) => page.getByRole('group', { name });

async function give(page: Page, label: string, size: [number, number]): Promise<void> {
	const before = (await pictured(page)).length;
	await page
		.getByLabel(`${label}, file`)
		.setInputFiles({ name: 'bench.jpg', mimeType: JPEG, buffer: await jpeg(page, ...size) });
	await expect.poll(async () => (await pictured(page)).length).toBe(before + 1);
}

const pictured = async (page: Page) =>
	(await events(page)).flatMap((event) => (event.kind === 'pictured' ? [event.data] : []));

/** Nothing for axe to find, and nothing wider than the smallest phone. */
async function clean(page: Page): Promise<void> {
	const { violations } = await new AxeBuilder({ page }).analyze();
	expect(violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
	const { width, height } = page.viewportSize()!;
	await page.setViewportSize({ width: 320, height: 700 });
	expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(320);
	await page.setViewportSize({ width, height });
}

async function toReport(page: Page): Promise<void> {
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Report for print' }).click();
	await expect(page.getByRole('heading', { name: 'Bench sheet' })).toBeVisible();
}

test('a part changed in a proof is pictured before and after; both stand at its change in the report, with what was fitted', async ({
	page,
	complaints
}) => {
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT, playing: true });
	await suspectFirst(page);
	await onward(page, () => press(page, 'Repair without proof'));
	await passGate(page);
	await expect(heading(page)).toHaveText('Change the part');
	await give(page, 'Picture it before the change', [800, 600]);
	await expect(group(page, /before the change$/).getByRole('listitem')).toHaveCount(1);
	await clean(page);
	await stepPane(page).getByLabel('New part').fill('47 nF, 630 V, polypropylene');
	await onward(page, () => press(page, 'Changed'));
	await expect(heading(page)).toHaveText('Put it on the limiter');
	await give(page, 'Picture it after the change', [640, 480]);
	await expect(group(page, /after the change$/).getByRole('listitem')).toHaveCount(1);
	await passGate(page);
	await expect(stepPane(page).getByRole('button', { name: /^Picture it/ })).toHaveCount(0);
	await onward(page, () => press(page, 'The symptom is gone'));
	await onward(page, () => press(page, 'Tested bad'));
	const [before, after] = await pictured(page);
	expect([before?.of.when, after?.of.when]).toEqual(['before', 'after']);
	expect(before?.of.part).toBe(after?.of.part);

	await page.reload();
	await toReport(page);
	for (const name of ['Bench sheet', 'For the owner of the set']) {
		const sheet = page.getByRole('article', { name });
		await expect(sheet.getByRole('figure')).toHaveCount(2);
		await expect(sheet.getByRole('figure').first()).toContainText('Before');
		await expect(sheet.getByRole('figure').last()).toContainText('After');
		const line = sheet.getByRole('listitem').filter({ has: page.getByRole('figure') });
		await expect(line).toHaveCount(1);
		await expect(line).toContainText(/Changed: .*coupling capacitor/i);
	}
	const shown = page.getByRole('article', { name: 'Bench sheet' }).locator('img');
	await expect
		.poll(() => shown.evaluateAll((all) => all.map((one) => (one as HTMLImageElement).naturalWidth)))
		.toEqual([800, 640]);
	await expect(page.getByRole('article', { name: 'Bench sheet' })).toContainText(
		'fitted: 47 nF, 630 V, polypropylene'
	);
	await clean(page);
	// They stand at the change, and not once more among the other pictures.
	await expect(page.getByRole('heading', { name: 'Pictures' })).toHaveCount(0);
	expect(complaints).toEqual([]);
});

test('pictures of a proof stand on the change card of the listed part too', async ({ page }) => {
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT, playing: true });
	await suspectFirst(page);
	await onward(page, () => press(page, 'Repair without proof'));
	await passGate(page);
	await give(page, 'Picture it before the change', [800, 600]);
	const { of } = (await pictured(page))[0]!;
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Parts of the set' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Parts of the set');
	await page.getByRole('button', { name: /^List the \d+ capacitors$/ }).click();
	const row = page
		.getByRole('list', { name: 'Parts of the set' })
		.locator('details')
		.filter({ hasText: 'Coupling capacitor to the output grid' })
		.first();
	await row.locator('summary').first().click();
	await expect(row.getByRole('group', { name: /before the change$/ }).getByRole('listitem')).toHaveCount(1);
	await row.getByRole('heading', { name: 'What it is' }).click();
	await give(page, 'Picture this part', [500, 400]);
	await expect(row.getByRole('group', { name: /^Pictures of / }).getByRole('listitem')).toHaveCount(1);
	await give(page, 'Picture it before the change', [640, 480]);
	await expect(row.getByRole('group', { name: /before the change$/ }).getByRole('listitem')).toHaveCount(2);
	const [, ofPart, again] = await pictured(page);
	expect(ofPart?.of).toEqual({ kind: 'part', part: again?.of.part });
	expect(again?.of.part).not.toBe(of.part);
});

test('a test point is pictured once and shows at every step there, on the diagram and in the report', async ({
	page,
	complaints
}) => {
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT, playing: true });
	await takePoint(page, GRID);
	await give(page, 'Picture the test point', [800, 600]);
	const here = group(page, `Where it is: ${GRID}`);
	await expect(here.getByRole('listitem')).toHaveCount(1);
	expect((await pictured(page))[0]?.of).toEqual({ kind: 'point', point: 'output.grid' });
	await onward(page, () => press(page, 'Back to the choice of steps'));
	await takePoint(page, GRID);
	await expect(here.getByRole('listitem')).toHaveCount(1);

	await unfold(page, 'Trail');
	await expect(page.getByRole('complementary', { name: 'Trail' })).toContainText(`Picture: ${GRID}`);
	await page.getByRole('link', { name: 'Diagram as work sheet' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('Diagram as work sheet');
	await give(page, 'Attach the diagram', [1600, 1000]);
	await page.getByLabel('Mark', { exact: true }).selectOption({ label: GRID });
	await page.getByRole('button', { name: 'Put it at the cross' }).click();
	await page.getByRole('button', { name: `Show ${GRID}` }).click();
	await expect(here.getByRole('listitem')).toHaveCount(1);
	await clean(page);
	await page.getByRole('link', { name: 'Back to the job' }).click();
	await expect(heading(page)).toBeVisible();
	await toReport(page);
	await expect(page.getByRole('figure').filter({ hasText: GRID })).toHaveCount(1);
	expect(complaints).toEqual([]);
});

test('of closed jobs the steps that told are named, with the number of jobs', async ({
	page,
	complaints
}) => {
	await startJob(page);
	const asked = await traceOn(page);
	await onward(page, () => proposal(page).click());
	await page.getByLabel('What did you find?').fill('15 kohm, marked 10 kohm');
	await onward(page, () => press(page, 'It is bad: go to the repair'));
	await passGate(page);
	await onward(page, () => press(page, 'Changed'));
	await expect(heading(page)).toHaveText('Look for the cause first');
	await expect(stepPane(page).getByRole('button', { name: 'Picture it after the change' })).toBeVisible();
	await passGate(page);
	await onward(page, () => press(page, 'The symptom is gone'));
	await onward(page, () => press(page, 'Tested bad'));
	await hear(page, { AM: 'Good', FM: 'Good', 'Gram input': 'Good' });
	await onward(page, () => press(page, 'Close the job: mended'));
	await page.goto('./tally/');
	const cause = page.getByRole('table').getByRole('row').nth(1);
	await expect(cause).toContainText(/feed resistor of the oscillator/i);
	await page.getByRole('button', { name: 'Which steps told' }).click();
	await expect(page.getByRole('heading', { name: 'Steps that told' })).toBeVisible();
	const steps = page.locator('section ol').getByRole('listitem');
	const titles = (await steps.allTextContents()).map((text) => /^(.*), in 1 job$/.exec(text.trim())?.[1]);
	expect(titles.length).toBeGreaterThan(0);
	expect(asked).toEqual(expect.arrayContaining(titles));
	expect(titles).toContain('Compare the AM bands and the whole dial');
	expect(complaints).toEqual([]);
});
