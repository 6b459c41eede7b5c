import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import {
	AC_DC,
	answer,
	events,
	heading,
	HOT_OUTPUT,
	kinds,
	onward,
	openStep,
	passGate,
	power,
	press,
	proposal,
	standingOf,
	startJob,
	stepPane,
	traceOn,
	typeVolts
} from './job-steps.ts';

test('faint AM is traced to the oscillator feed, proved, changed, and proved again on full mains', async ({
	page,
	complaints
}) => {
	await startJob(page);
	await expect(power(page)).toContainText('Off, not proved dead');
	const asked = await traceOn(page);
	expect(asked).toContain('Is the oscillator running?');
	await expect(stepPane(page)).toContainText('feed resistor of the oscillator');

	await onward(page, () => proposal(page).click());
	await expect(heading(page)).toHaveText('Prove it before the iron');
	await page.getByLabel('What did you find?').fill('15 kohm, marked 10 kohm');
	await onward(page, () => press(page, 'It is bad: go to the repair'));
	// It may be proposed while the set is on: then it is made dead first.
	await passGate(page);
	await expect(heading(page)).toHaveText('Change the part');
	await onward(page, () => press(page, 'Changed'));
	expect(await passGate(page)).toEqual(['Look for the cause first', 'Put it on the limiter', 'Full mains']);

	await onward(page, () => press(page, 'The symptom is gone'));
	await onward(page, () => press(page, 'Tested bad'));
	await expect(heading(page)).toHaveText('Now listen to every band');
	expect(await kinds(page)).toContain('proved');
	await page.getByRole('button', { name: 'Undo' }).first().click();
	await expect(heading(page)).toHaveText('Is the symptom gone?');
	expect(complaints).toEqual([]);
});

test('at 40 V the set is not dead: the page stays and says discharge again', async ({ page }) => {
	await startJob(page, { playing: true });
	await power(page).click();
	await page.getByRole('button', { name: 'Discharge and prove it dead' }).click();
	await typeVolts(page, '40', '2');
	await expect(heading(page)).toHaveText('Discharge, then prove it dead');
	await expect(stepPane(page)).toContainText('Not dead yet: discharge again');
	await expect(page.getByLabel('At the reservoir')).toBeFocused();
	await expect(page.getByLabel('At the reservoir')).toHaveValue('40');
	await onward(page, () => typeVolts(page, '4', '2'));
	await expect(power(page)).toContainText('Unplugged');
	expect((await events(page)).at(-1)).toMatchObject({ kind: 'power', data: { volts: [4, 2] } });
});

/** The focused thing is on screen, not under the bar, and drawn with an outline; a part of the drawing with a ring. */
const focusSeen = (page: Page) =>
	page.evaluate(() => {
		const at = document.activeElement;
		if (!at || at === document.body || at.id === 'main') return true;
		const { top, bottom, left, right } = at.getBoundingClientRect();
		const over = document.elementFromPoint(
			(left + right) / 2,
			(Math.max(top, 0) + Math.min(bottom, innerHeight)) / 2
		);
		const clear = over !== null && (at.contains(over) || over.contains(at) || over.closest('svg') !== null);
		const ring = at.querySelector('.ring');
		const drawn = ring
			? getComputedStyle(ring).stroke !== 'none'
			: getComputedStyle(at).outlineStyle !== 'none';
		return (clear && drawn) || at.outerHTML;
	});

/** Tab, and further, to the thing with this name; the focus is seen on the way. */
async function tabTo(page: Page, name: string | RegExp, role: 'button' | 'radio' | 'textbox' = 'button') {
	const wanted = page.getByRole(role, { name }).first();
	for (let presses = 0; presses < 60; presses++) {
		if (await wanted.evaluate((one) => one === document.activeElement)) return;
		await page.keyboard.press('Tab');
		expect(await focusSeen(page)).toBe(true);
	}
	await expect(wanted).toBeFocused();
}

test('by keyboard alone a job is started, answered, read, made safe and taken back', async ({ page }) => {
	await page.goto('./start/');
	await page.getByRole('radio').first().waitFor();
	await tabTo(page, /./, 'radio');
	await page.keyboard.press('ArrowDown');
	await page.keyboard.press('Space');
	await tabTo(page, 'Good', 'radio');
	await page.keyboard.press('ArrowDown');
	await page.keyboard.press('Tab');
	await page.keyboard.press('Space');
	await tabTo(page, 'Weak on AM, fine on FM');
	await page.keyboard.press('Enter');

	await expect(heading(page)).toHaveText(/^Check every switch/);
	await onward(page, () => page.keyboard.press('1'));
	await expect(heading(page)).toBeFocused();
	await tabTo(page, 'Go to this step');
	await onward(page, () => page.keyboard.press('Enter'));
	await tabTo(page, 'It is on, through the lamp');
	await onward(page, () => page.keyboard.press('Enter'));
	await tabTo(page, 'It is on full mains');
	await onward(page, () => page.keyboard.press('Enter'));
	await onward(page, () => page.keyboard.press('3'));
	const volts = page.getByLabel('DC volts');
	let asked = '';
	for (let answers = 0; answers < 5 && !(await volts.isVisible()); answers++)
		asked = await onward(page, () => page.keyboard.press('1'));
	await tabTo(page, 'DC volts', 'textbox');
	await page.keyboard.type('-1.2');
	await onward(page, () => page.keyboard.press('Enter'));
	await onward(page, () => page.keyboard.press('u'));
	await expect(heading(page)).toHaveText(asked);

	await tabTo(page, /^Power:/);
	await page.keyboard.press('Enter');
	await tabTo(page, 'Discharge and prove it dead');
	await onward(page, () => page.keyboard.press('Enter'));
	await tabTo(page, 'Off, and the plug is out');
	await onward(page, () => page.keyboard.press('Enter'));
	await tabTo(page, /At the reservoir/, 'textbox');
	await page.keyboard.type('0.4');
	await page.keyboard.press('Enter');
	await page.keyboard.type('0');
	await onward(page, () => page.keyboard.press('Enter'));
	await expect(power(page)).toContainText('Unplugged');
});

test('as many undos as answers bring back step and standings, and the log only grows', async ({ page }) => {
	await startJob(page, { playing: true });
	await answer(page);
	await openStep(page);
	const before = { shown: await standingOf(page), count: (await events(page)).length };
	const words = [/Part of the dial only/, undefined, undefined];
	for (const word of words) await answer(page, word);
	const between = await standingOf(page);
	expect(between.receiver).not.toBe(before.shown.receiver);
	let count = (await events(page)).length;
	for (const _ of words) {
		await onward(page, () => page.getByRole('button', { name: 'Undo' }).first().click());
		const now = (await events(page)).length;
		expect(now).toBeGreaterThan(count);
		count = now;
	}
	expect(await standingOf(page)).toEqual(before.shown);
	expect(await kinds(page)).not.toContain('left');
});

test('a double tap is one answer', async ({ page }) => {
	await startJob(page, { playing: true });
	await onward(page, () => stepPane(page).getByRole('button', { name: 'All in place' }).dblclick());
	await page.waitForTimeout(300);
	expect((await kinds(page)).filter((kind) => kind === 'answered')).toHaveLength(1);
	await expect(page.getByText('does not fit')).toHaveCount(0);
});

test('on a live chassis every step says so', async ({ page }) => {
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT });
	for (const word of [/No red, no sparks/, undefined, undefined]) {
		await expect(page.getByText('Live chassis.').first()).toBeVisible();
		await expect(page.getByText('A lamp limiter does not isolate.')).toBeVisible();
		await answer(page, word);
	}
});
