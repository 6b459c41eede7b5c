import { readFile } from 'node:fs/promises';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import {
	AC_DC,
	answer,
	changePart,
	events,
	hear,
	heading,
	HOT_OUTPUT,
	kinds,
	onward,
	openStep,
	passGate,
	power,
	press,
	startJob,
	stepPane,
	suspectFirst,
	unfold,
	WEAK_AM
} from './job-steps.ts';

/** The likeliest suspect is changed, and the symptom does this. */
async function changeFirst(page: Page, symptom: string, part = 'Tested bad'): Promise<void> {
	await suspectFirst(page);
	await changePart(page);
	await onward(page, () => press(page, symptom));
	await onward(page, () => press(page, part));
}

test('after a cure every band is heard, the job is closed and looked back on, on the page and in the report', async ({
	page,
	complaints
}) => {
	await startJob(page, { playing: true });
	await answer(page);
	await changeFirst(page, 'The symptom is gone');
	await expect(heading(page)).toHaveText('Now listen to every band');
	await press(page, 'Record what is heard');
	await expect(stepPane(page).getByRole('alert').filter({ hasText: 'one band' })).toBeVisible();
	await hear(page, { AM: 'Good', FM: 'Good', 'Gram input': 'Good' });
	await expect(heading(page)).toHaveText('Every band plays');
	await onward(page, () => press(page, 'Close the job: mended'));
	await expect(heading(page)).toHaveText('The job is closed');
	await expect(stepPane(page).getByRole('region', { name: 'Looking back' })).toContainText(
		'The shortest way'
	);
	expect((await events(page)).slice(-2)).toMatchObject([
		{ kind: 'heard', data: { bands: { am: 'good', fm: 'good', gram: 'good' } } },
		{ kind: 'closed', data: { result: 'mended' } }
	]);
	const saving = page.waitForEvent('download');
	await press(page, 'Make a draft flow');
	const saved = await saving;
	const text = await readFile(await saved.path(), 'utf8');
	expect(saved.suggestedFilename()).toBe(`${/^id: (.*)$/m.exec(text)?.[1] ?? ''}.yaml`);
	expect(text).toMatch(/^# yaml-language-server: /);
	expect(text).toContain('TODO');
	await unfold(page, 'Trail');
	await page.getByRole('link', { name: 'Report for print' }).click();
	const main = page.getByRole('main');
	await expect(main).toContainText('Looking back');
	await expect(main).toContainText('Heard now: AM plays well, FM plays well, Gram input plays well');
	await expect(main).not.toContainText('FM after the last change: not tested');
	expect(complaints).toEqual([]);
});

test('a band that fails after the cure leads to its flow, and the trace that is back goes on', async ({
	page
}) => {
	await startJob(page, { playing: true });
	await answer(page);
	await changeFirst(page, 'The symptom is gone');
	await hear(page, { AM: 'Weak', FM: 'Good' });
	await expect(heading(page)).toHaveText('Another fault is left');
	await onward(page, () => press(page, new RegExp(`Stay with this trace: ${WEAK_AM}`)));
	expect((await kinds(page)).slice(-2)).toEqual(['flow-opened', 'went-on']);
});

test('a symptom that changed leads to the flow for what is heard now, and no answer is asked twice', async ({
	page
}) => {
	await startJob(page, { playing: true });
	const asked: string[] = [];
	for (const word of [undefined, /Part of the dial only/, undefined]) {
		asked.push((await heading(page).textContent()) ?? '');
		await answer(page, word);
	}
	await changeFirst(page, 'Something has changed');
	await expect(heading(page)).toHaveText('What does each band do now?');
	await hear(page, { AM: 'Distorted', FM: 'Distorted' });
	const flows = stepPane(page).getByRole('list', { name: 'Flows for it' });
	await expect(flows.getByRole('button', { name: HOT_OUTPUT })).toContainText('changed already');
	await onward(page, () => flows.getByRole('button', { name: HOT_OUTPUT }).click());
	await expect(stepPane(page)).not.toContainText('What does each band do now?');
	expect(asked).not.toContain(await heading(page).textContent());
});

test('a complaint that is really another one is said again at any time', async ({ page }) => {
	await startJob(page, { playing: true });
	await onward(page, () => press(page, 'It is really another complaint'));
	await onward(page, () => press(page, 'Back to the trace'));
	await onward(page, () => press(page, 'It is really another complaint'));
	await hear(page, { AM: 'Distorted', FM: 'Distorted' });
	await expect(heading(page)).toHaveText('The complaint now');
	await onward(page, () => press(page, 'Stay with this trace'));
	await expect(heading(page)).toHaveText(/^Check every switch/);
	await page.reload();
	await expect(heading(page)).toHaveText(/^Check every switch/);
});

test('a part that fails because of another: no power before its cause was looked for', async ({ page }) => {
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT, playing: true });
	await unfold(page, 'Suspects');
	const row = page.getByRole('list', { name: 'Suspects', exact: true }).getByRole('listitem');
	const worn = row.filter({ hasText: 'Output valve: gassy' }).first();
	await worn.locator('summary').first().click();
	await worn.getByRole('button', { name: 'Prove and change this part' }).click();
	await expect(heading(page)).toHaveText('Prove it before the iron');
	await onward(page, () => press(page, 'Repair without proof'));
	await passGate(page);
	await onward(page, () => press(page, 'Changed'));
	await expect(heading(page)).toHaveText('Look for the cause first');
	await power(page).click();
	await expect(page.getByRole('button', { name: /limiter/ })).toBeDisabled();
	await page.keyboard.press('Escape');
	await press(page, 'The cause is found');
	await expect(stepPane(page)).toContainText('Write in a few words what was found');
	await page.getByLabel(/What did you find behind it/).fill('cathode resistor 180 ohm, marked 150');
	await onward(page, () => press(page, 'The cause is found'));
	await expect(heading(page)).toHaveText('Put it on the limiter');
	await unfold(page, 'Trail');
	await expect(page.getByRole('complementary', { name: 'Trail' })).toContainText(
		'cathode resistor 180 ohm, marked 150'
	);
});

test('a part that proved good: the answer that spoke for it is named, and taken again with one tap', async ({
	page
}) => {
	await startJob(page, { playing: true });
	await answer(page);
	await answer(page, /Part of the dial only/);
	await changeFirst(page, 'Nothing has changed', 'Tested good');
	const doubts = stepPane(page).getByRole('region', { name: 'What does not go together' });
	await expect(doubts).toContainText('proved good, and the symptom stays');
	await onward(page, () =>
		doubts.getByRole('button', { name: /^Take it again: Compare the AM bands/ }).click()
	);
	await passGate(page);
	await expect(heading(page)).toHaveText(/^Compare the AM bands/);
	await onward(page, () => press(page, /as in a sound set/));
	await expect(doubts.filter({ hasText: 'proved good' })).toHaveCount(0);
});

test('with my own suspicion first the list waits until it is written down, and looks back on it', async ({
	page
}) => {
	await page.addInitScript(() =>
		localStorage.setItem('valvetrail-bench', JSON.stringify({ ownFirst: true, instruments: ['meter-10M'] }))
	);
	await startJob(page, { playing: true });
	await expect(heading(page)).toHaveText('Your own suspicion first');
	await unfold(page, 'Suspects');
	await expect(page.getByRole('list', { name: 'Suspects', exact: true })).toHaveCount(0);
	await press(page, 'Write it down and show the list');
	await expect(stepPane(page)).toContainText('Write one part');
	await page
		.getByLabel(/A part and how it fails/)
		.first()
		.fill('lead');
	await stepPane(page)
		.getByRole('list', { name: 'Parts with these words' })
		.getByRole('button')
		.first()
		.click();
	await onward(page, () => press(page, 'Write it down and show the list'));
	await expect(page.getByRole('list', { name: 'Suspects', exact: true })).toBeVisible();
	expect(await kinds(page)).toContain('guessed');
	await changeFirst(page, 'The symptom is gone');
	await expect(stepPane(page).getByRole('region', { name: 'Looking back' })).toContainText(
		'before the first answer'
	);
});

test('a step says what each answer would do, and the others why they are not first', async ({ page }) => {
	await startJob(page, { playing: true });
	await unfold(page, 'What each answer would do');
	await expect(stepPane(page)).toContainText(/expected in \d+ %/);
	await expect(stepPane(page).getByRole('heading', { name: 'Instead of this' })).toBeVisible();
	await expect(stepPane(page)).toContainText(/takes (as long|\d+ min)/i);
});

test('for a sum and back the set stays as it was; a reload makes it off, not proved dead', async ({
	page
}) => {
	await startJob(page, { playing: true });
	await answer(page);
	await openStep(page);
	await expect(power(page)).toContainText('Live');
	const count = (await events(page)).length;
	await page.getByRole('link', { name: 'Sums' }).click();
	await expect(page).toHaveURL(/sums/);
	await page.goBack();
	await expect(power(page)).toContainText('Live');
	expect(await events(page)).toHaveLength(count);
	await page.reload();
	await expect(power(page)).toContainText('Off, not proved dead');
});

test('an entry to a job that was deleted in another tab is refused in a sentence', async ({
	page,
	context,
	complaints
}) => {
	await startJob(page, { playing: true });
	const list = await context.newPage();
	await list.goto(new URL('../', page.url().replace(/#.*/, '')).href);
	await list.getByRole('button', { name: /^Delete AM/ }).click();
	await list.getByRole('button', { name: 'Delete it' }).click();
	await expect(list.getByRole('region', { name: 'Jobs' }).getByRole('listitem')).toHaveCount(0);
	await press(page, 'All in place');
	await expect(page.getByRole('alert')).toContainText('has been deleted, perhaps in another tab');
	expect(complaints).toEqual([]);
});
