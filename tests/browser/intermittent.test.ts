import type { Page } from '@playwright/test';
import { exportJob } from '../../src/lib/job/file.ts';
import { takeSnapshot } from '../../src/lib/job/snapshot.ts';
import { shippedLibrary } from '../library.ts';
import { intake, Log } from '../unit/job/log.ts';
import { expect, test } from './bench.ts';
import {
	events,
	heading,
	HOT_OUTPUT,
	onward,
	openStep,
	passGate,
	power,
	press,
	startJob,
	stepPane,
	unfold
} from './job-steps.ts';

const TAP = 'Tap one thing after another';
const JOB = 'Set that comes and goes';

/** A job in a file that was left at this step, the set on full mains. */
async function jobAt(step: string): Promise<string> {
	const library = shippedLibrary();
	const [flow, plan] = [library.flows['fades-by-itself'], library.plans['am-fm-shared']];
	if (!flow || !plan) throw new Error('The library has changed.');
	const kept = await takeSnapshot(library, flow, plan, globalThis.crypto.subtle);
	const log = new Log();
	log.add('started', {});
	log.add('intake', intake({ title: JOB, plan: plan.id, symptom: { am: 'intermittent' } }));
	log.add('flow-opened', { flow: flow.id, plan: plan.id, hash: kept.hash });
	log.add('power', { to: 'live' });
	log.add('took', { flow: flow.id, step });
	const at = new Date().toISOString();
	const events = log.events.map((event) => ({ ...event, at }));
	return await exportJob(events, { [kept.hash]: kept.library }, at);
}

/** Take the job in, which opens it, and come back to its step, through the gate to full mains. */
async function openAt(page: Page, step: string): Promise<void> {
	await page.goto('./');
	await expect(page.getByRole('button', { name: 'Take in a job file' })).toBeEnabled();
	await page.getByLabel('Job file').setInputFiles({
		name: 'set.json',
		mimeType: 'application/json',
		buffer: Buffer.from(await jobAt(step))
	});
	await expect(heading(page)).toBeVisible();
	await passGate(page);
}

const lastOf = async (page: Page, kind: string) =>
	(await events(page)).findLast((event) => event.kind === kind)?.data;

test('rounds are counted on a sheet, kept over a reload, and recorded as the answer', async ({
	page,
	complaints
}) => {
	test.slow();
	await openAt(page, 'provoke-tap');
	await expect(heading(page)).toHaveText(TAP);
	const tap = page.getByRole('group', { name: /^Tap it/ });
	await expect(stepPane(page).getByText('Count one round, then record the sheet.')).toBeVisible();
	await tap.getByRole('button', { name: /^It came or went/ }).click();
	await expect(tap.getByRole('heading')).toContainText('1 round');
	await tap.getByRole('button', { name: /^It came or went/ }).click();
	await expect(tap.getByRole('heading')).toContainText('2 rounds');
	await tap.getByRole('button', { name: /^Nothing came/ }).click();
	await expect(tap.getByRole('heading')).toContainText('3 rounds');
	await tap.getByRole('button', { name: 'Tap it, It came or went: one round less' }).click();
	await expect(tap.getByRole('heading')).toContainText('2 rounds');
	expect(await lastOf(page, 'tallied')).toMatchObject({ provoked: { tap: [2, 1] } });

	await page.reload();
	await openStep(page);
	await expect(heading(page)).toHaveText(TAP);
	await expect(tap.getByRole('heading')).toContainText('2 rounds');
	await onward(page, () => press(page, 'Record the sheet'));
	expect(await lastOf(page, 'answered')).toMatchObject({
		step: 'provoke-tap',
		outcome: 'answered',
		provoked: { tap: [2, 1] }
	});
	await unfold(page, 'Trail');
	await expect(page.getByText('Tap it: 1 of 2 rounds', { exact: true })).toBeVisible();
	expect(complaints).toEqual([]);
});

test('the clock of a step goes on over a reload', async ({ page }) => {
	test.slow();
	await page.clock.install();
	await openAt(page, 'provoke-heat');
	await press(page, 'Start the clock');
	await expect(page.getByRole('timer')).toHaveText(/^0:[0-5]\d$/);
	await page.clock.runFor('04:12');
	await expect(page.getByRole('timer')).toHaveText(/^4:[1-5]\d$/);
	await page.reload();
	await openStep(page);
	await expect(page.getByRole('timer')).toHaveText(/^4:[1-5]\d$/);
	await press(page, 'Start it anew');
	await expect(page.getByRole('timer')).toHaveText(/^0:[0-5]\d$/);
});

test('an answer can be marked as not sure beside the answers, by a tap or by its key', async ({ page }) => {
	await startJob(page);
	await openStep(page);
	const mark = stepPane(page).getByRole('button', { name: 'Not sure' });
	await expect(mark).toHaveAttribute('aria-pressed', 'false');
	await mark.click();
	await expect(mark).toHaveAttribute('aria-pressed', 'true');
	await mark.press('n');
	await expect(mark).toHaveAttribute('aria-pressed', 'false');
	await mark.press('n');
	await onward(page, () => press(page, /as in a sound set/));
	expect(await lastOf(page, 'answered')).toMatchObject({ sure: false });
	await unfold(page, 'Trail');
	await expect(page.getByText(/\(not sure\)/).first()).toBeVisible();
	// The next question begins as sure as ever.
	await openStep(page);
	await expect(mark).toHaveAttribute('aria-pressed', 'false');
});

test('a part tested good is nearly cleared, and undo takes the test back', async ({ page }) => {
	await startJob(page, { heard: {}, flow: HOT_OUTPUT });
	await unfold(page, 'Suspects');
	const suspects = page.getByRole('list', { name: 'Suspects', exact: true }).getByRole('listitem');
	const first = suspects.first();
	const name = 'Coupling capacitor to the output grid: leaky';
	await expect(first).toContainText(name);
	await first.locator('summary').first().click();
	await expect(first.getByRole('button', { name: 'Changed' })).toBeDisabled();
	await expect(first.getByText('unplug the set and prove it dead')).toBeVisible();
	await first.getByLabel('What was measured, if anything').fill('over 1 Gohm at 250 V');
	await first.getByRole('button', { name: 'Tested good' }).click();
	await expect(first).not.toContainText(name);
	await unfold(page, 'Trail');
	await expect(page.getByText(`Tested: ${name}: good; over 1 Gohm at 250 V`)).toBeVisible();
	await page.getByRole('button', { name: 'Undo' }).click();
	await expect(first).toContainText(name);
});

test('a part tested bad leads, and once the set is proved dead it can be changed', async ({ page }) => {
	await startJob(page, { heard: {}, flow: HOT_OUTPUT });
	await unfold(page, 'Suspects');
	const row = page.getByRole('listitem').filter({ hasText: 'Output valve: gassy' }).first();
	await row.locator('summary').first().click();
	await row.getByRole('button', { name: 'Tested bad' }).click();
	const leading = page.getByRole('list', { name: 'Suspects', exact: true }).getByRole('listitem').first();
	await expect(leading).toContainText('Output valve: gassy');
	await expect(leading).toContainText('tested bad');
	await power(page).click();
	await page.getByRole('button', { name: 'Discharge and prove it dead' }).click();
	await passGate(page);
	await row.getByRole('button', { name: 'Changed' }).click();
	await expect(leading).not.toContainText('Output valve: gassy');
	expect(await lastOf(page, 'part-changed')).toEqual({ part: 'ov-gas' });
});
