import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import {
	answer,
	heading,
	HOT_OUTPUT,
	kinds,
	liveInstead,
	onward,
	openStep,
	passGate,
	power,
	press,
	startJob,
	stepPane,
	typeVolts,
	unfold
} from './job-steps.ts';

/** The words of answers are on the page: the step can be answered. */
const canAnswer = (page: Page) => stepPane(page).getByRole('group', { name: 'Answers' });
const proposed = (page: Page) => stepPane(page).getByRole('button', { name: 'Go to this step' });

test('no live step opens before the lamp limiter and full mains, by button, drawing, reload, Back or a second tab', async ({
	page,
	context
}) => {
	await startJob(page);
	await answer(page);
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
	await expect(canAnswer(page)).toHaveCount(0);

	await proposed(page).click();
	await expect(heading(page)).toHaveText('Put it on the limiter');
	await page.reload();
	await expect(heading(page)).toHaveText('Put it on the limiter');
	await page.goto('./');
	await page.goBack();
	await expect(heading(page)).toHaveText('Put it on the limiter');
	await expect(canAnswer(page)).toHaveCount(0);

	const second = await context.newPage();
	await second.goto(page.url());
	await expect(heading(second)).toHaveText('Put it on the limiter');
	await second.close();

	await press(page, 'Not now');
	await expect(proposed(page)).toBeVisible();
	await unfold(page, 'Receiver');
	await onward(page, () => page.getByRole('button', { name: /^Test point: Oscillator grid/ }).click());
	await expect(heading(page)).toHaveText('Put it on the limiter');
	await press(page, 'Not now');
	await expect(proposed(page)).toBeVisible();
	await power(page).click();
	await expect(page.getByRole('button', { name: 'Put it on full mains' })).toBeDisabled();
	await page.keyboard.press('Escape');

	await onward(page, () => liveInstead(page).first().click());
	expect(await passGate(page)).toEqual(['Put it on the limiter', 'Full mains']);
	await expect(canAnswer(page)).toBeVisible();
});

test('undo brings back no step that the power state forbids', async ({ page }) => {
	await startJob(page);
	await answer(page);
	await answer(page);
	await expect(power(page)).toContainText('Live');
	await power(page).click();
	await page.getByRole('button', { name: 'I have switched off' }).click();
	await expect(power(page)).toContainText('Off, not proved dead');
	await page.getByRole('button', { name: 'Undo' }).first().click();
	await expect(heading(page)).toHaveText('Full mains');
	await expect(canAnswer(page)).toHaveCount(0);
});

test('a step on the dead chassis opens by two typed readings only', async ({ page }) => {
	await startJob(page, { playing: true });
	await answer(page);
	const cold = stepPane(page).getByRole('button', { name: /, unplugged/ });
	for (let asked = 0; asked < 8 && !(await cold.first().isVisible()); asked++) await answer(page);
	await cold.first().click();
	await onward(page, () => press(page, 'Off, and the plug is out'));
	await expect(heading(page)).toHaveText('Discharge, then prove it dead');

	await press(page, 'Record both readings');
	await expect(stepPane(page)).toContainText('type what the meter shows, 0 V too');
	await page.reload();
	await expect(heading(page)).toHaveText('Discharge, then prove it dead');
	await page.getByLabel('At the reservoir').fill('0.2');
	await press(page, 'Record both readings');
	await expect(page.getByLabel('After the smoothing')).toBeFocused();
	await expect(canAnswer(page)).toHaveCount(0);
	await onward(page, () => typeVolts(page, '0.2', '0,1'));
	await expect(canAnswer(page)).toBeVisible();
	await expect(power(page)).toContainText('Unplugged');
});

test('a red anode sends the set back through the limiter', async ({ page }) => {
	await startJob(page, { heard: { AM: 'Distorted', FM: 'Distorted' }, flow: HOT_OUTPUT, playing: true });
	await openStep(page);
	await answer(page, /Output anode red/);
	expect(await openStep(page)).toEqual([
		'Switch off and pull the plug',
		'Discharge, then prove it dead',
		'Connect while the set is dead',
		'Put it on the limiter'
	]);
	await expect(heading(page)).toHaveText(/on the lamp limiter$/);
	await power(page).click();
	await page.getByRole('button', { name: 'I have switched off' }).click();
	await power(page).click();
	await expect(page.getByRole('button', { name: 'Put it on full mains' })).toBeDisabled();
});

test('without a meter nothing opens that touches the chassis', async ({ page }) => {
	await page.addInitScript(() =>
		localStorage.setItem('valvetrail-bench', JSON.stringify({ instruments: ['lamp-limiter'] }))
	);
	await startJob(page, { playing: true });
	await power(page).click();
	await page.getByRole('button', { name: 'Discharge and prove it dead' }).click();
	await expect(heading(page)).toHaveText('No step that touches the chassis opens without a meter');
	expect(await kinds(page)).not.toContain('power');

	await unfold(page, 'My bench');
	await page.getByRole('checkbox', { name: 'Multimeter', exact: true }).check();
	await onward(page, () => page.getByRole('button', { name: 'Use these instruments' }).click());
	await expect(heading(page)).toHaveText('Discharge, then prove it dead');
});
