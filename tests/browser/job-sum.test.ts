import { expect, test } from './bench.ts';
import { events, heading, HOT_OUTPUT, onward, startJob, stepPane, takePoint, unfold } from './job-steps.ts';

test.use({ actionTimeout: 20_000 });

test('the sum of a step opens filled, is kept with what went in, answers the step, and stands in trail and report', async ({
	page,
	complaints
}) => {
	test.slow();
	await startJob(page, { heard: { AM: 'Distorted', FM: 'Distorted' }, flow: HOT_OUTPUT, playing: true });
	await takePoint(page, 'Control grid of the output valve');
	await expect(heading(page)).toHaveText(/^Grid volts of the output valve/);
	await page.getByLabel('DC volts').fill('3');
	await unfold(page, 'The sum that belongs here');
	const field = (name: RegExp) => stepPane(page).getByRole('textbox', { name });
	await expect(field(/^Volts measured on the grid/)).toHaveValue('3 V');
	await expect(field(/^Resistance from grid to its return/)).toHaveValue('470 kΩ');
	await expect(field(/^Resistance from grid to its return/)).toHaveAccessibleDescription(
		/Filled in from: Output grid leak, 470 kohm/
	);

	// What is typed beside a filled value stays when the reading is mended.
	await field(/^DC volts at the far plate/).fill('90');
	await page.getByLabel('DC volts', { exact: true }).fill('3.2');
	await expect(field(/^Volts measured on the grid/)).toHaveValue('3.2 V');
	await expect(field(/^DC volts at the far plate/)).toHaveValue('90');
	await stepPane(page).getByRole('button', { name: 'Keep this sum in the trail' }).click();
	await expect(stepPane(page).getByRole('button', { name: 'Kept in the trail' })).toBeDisabled();
	await onward(page, () =>
		stepPane(page)
			.getByRole('button', { name: /^Take this as the answer: / })
			.click()
	);

	const log = await events(page);
	const sums = log.filter(({ kind }) => kind === 'calculated');
	expect(sums).toHaveLength(2);
	expect(sums[0]?.data).toMatchObject({
		calculation: 'grid-leakage',
		step: expect.stringMatching(/^v-og/) as unknown,
		inputs:
			'DC volts at the far plate of the capacitor 90 V, volts measured on the grid 3.2 V, resistance from grid to its return 470 kΩ'
	});
	const [answered] = log.filter(({ kind }) => kind === 'answered').slice(-1);
	expect(answered?.data).toMatchObject({ outcome: 'positive', reading: { value: 3.2 } });

	await unfold(page, 'Trail');
	await expect(page.getByText(/From: .*volts measured on the grid 3\.2 V/).first()).toBeVisible();
	const url = new URL(page.url());
	await page.goto(`./report/${url.hash}`);
	await expect(page.getByRole('heading', { name: 'Sums' })).toBeVisible();
	await expect(page.getByText(/volts measured on the grid 3\.2 V/).first()).toBeVisible();
	expect(complaints).toEqual([]);
});
