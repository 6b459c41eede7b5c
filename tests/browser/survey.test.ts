import AxeBuilder from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';
import { AM_FM, events, heading, HOT_OUTPUT, press, startJob } from './job-steps.ts';

/** The set's data and the voltage survey, as a restorer uses them: by keyboard, on a phone and on a desk. */

const main = (page: Page) => page.getByRole('main');
const line = (page: Page, point: string) => page.locator(`li[data-point="${point}"]`);
const field = (page: Page, point: string) => line(page, point).locator('.box > input').first();

async function toPage(page: Page, name: 'set' | 'survey'): Promise<void> {
	const url = page.url();
	await page.goto(`${new URL(`../${name}/`, url.replace(/#.*/, '')).href}${new URL(url).hash}`);
	await expect(main(page).getByRole('heading', { level: 1 })).toHaveText(
		name === 'set' ? 'The set' : 'Voltage survey'
	);
}

/** A set that came in playing, on its survey page and on full mains by the gate. */
async function onSurvey(page: Page): Promise<void> {
	await toPage(page, 'survey');
	await page.getByRole('button', { name: 'Bring it to full mains' }).click();
	const stage = main(page).getByRole('heading', { level: 1 }).nth(1);
	await expect(stage).toHaveText('Full mains');
	await page.getByRole('button', { name: 'It is on full mains' }).click();
	await expect(field(page, 'ht.reservoir')).toBeVisible();
}

async function keepSet(page: Page): Promise<void> {
	await page.getByRole('button', { name: 'Keep these data with the job' }).click();
	await expect(page.getByText('Kept with the job.')).toBeVisible();
}

const start = (page: Page) => startJob(page, { set: AM_FM, playing: true });

const TABLE = 'valve\ta\tg2\tk\nECH81\t240\t92\t\nEF89\t200\t95\t1.9\nEL84\t245\t250\t7.3\nEM34\t200\t\t\n';

async function pasteSheet(page: Page): Promise<void> {
	await toPage(page, 'set');
	await page.locator('summary', { hasText: 'Paste a table' }).click();
	await page.getByLabel(/^The table as text/).fill(`Reservoir 270\nHT 250\n${TABLE}`);
	await page.getByRole('button', { name: 'Take what can be read' }).click();
	await expect(page.getByText('10 voltages taken, 1 kept aside.')).toBeVisible();
}

async function addPart(page: Page, kind: string, value: string, name = '', watts = ''): Promise<void> {
	await page.getByRole('button', { name: 'Add a part' }).click();
	await page.getByLabel('Which part').last().selectOption({ label: kind });
	await page.getByLabel('Value').last().fill(value);
	if (name) await page.getByLabel('Its name on the drawing').last().fill(name);
	if (watts) await page.getByLabel('Rating, if marked').last().fill(watts);
}

test('a sheet pasted once reads the survey: HT 200 for 250 makes an anode of 160 V right, and says where to look', async ({
	page,
	complaints
}) => {
	await start(page);
	await pasteSheet(page);
	await expect(page.getByText(/EM34/).first()).toBeVisible();
	await addPart(page, 'Smoothing: reservoir to HT line', '224', 'R12', '4');
	await keepSet(page);
	await onSurvey(page);

	await field(page, 'ht.reservoir').fill('270');
	await field(page, 'ht.reservoir').press('Enter');
	await expect(field(page, 'ht.smoothed')).toBeFocused();
	await page.keyboard.type('200');
	await page.keyboard.press('Enter');
	await expect(line(page, 'ht.smoothed').locator('.verdict')).toContainText('low');
	// A reading of zero ohms more: 70 V over 224 ohm.
	await expect(line(page, 'ht.smoothed').locator('.worked').first()).toContainText(
		'Current through R12 313 mA'
	);
	await field(page, 'if.anode').fill('160');
	await field(page, 'if.anode').press('Enter');
	await expect(line(page, 'if.anode').locator('.expected')).toContainText('about 160 V');
	await expect(line(page, 'if.anode').locator('.verdict')).toContainText('as expected');
	await field(page, 'output.screen').fill('200');
	await field(page, 'output.screen').press('Enter');
	await expect(line(page, 'output.screen').locator('.verdict')).toContainText('as expected');
	await expect(page.getByText(/Everything beyond R12 is low in one ratio, 80 %/)).toBeVisible();
	await expect(page.getByText(/look between R12 and the reservoir/)).toBeVisible();

	// Everything is kept: after a reload the readings stand, and the set counts as off.
	await page.goto('./');
	await page.goBack();
	await expect(line(page, 'if.anode').locator('.verdict')).toContainText('as expected');
	expect((await events(page)).filter(({ kind }) => kind === 'read')).toHaveLength(4);
	expect(complaints).toEqual([]);
});

test('17.5 V over 224 ohm stand as 78.1 mA beside the reading', async ({ page }) => {
	await start(page);
	await toPage(page, 'set');
	await addPart(page, 'Smoothing: reservoir to HT line', '224');
	await keepSet(page);
	await onSurvey(page);
	await field(page, 'ht.reservoir').fill('267.5');
	await field(page, 'ht.reservoir').press('Enter');
	await field(page, 'ht.smoothed').fill('250');
	await field(page, 'ht.smoothed').press('Enter');
	await expect(line(page, 'ht.smoothed').locator('.worked').first()).toContainText('78.1 mA');
});

test('88 V on the sheet’s meter of 200 kohm are expected at 119 V on one of 10 Mohm', async ({ page }) => {
	await start(page);
	await toPage(page, 'set');
	await page.getByLabel('Its meter, resistance').fill('200k');
	await page.getByLabel('IF valve screen', { exact: true }).fill('88');
	await addPart(page, 'Seen by the meter at: IF valve screen', '73k');
	await keepSet(page);
	await onSurvey(page);
	await expect(line(page, 'if.screen').locator('.expected')).toContainText('about 119 V');
	await field(page, 'if.screen').fill('118');
	await field(page, 'if.screen').press('Enter');
	await expect(line(page, 'if.screen').locator('.alarm')).toContainText('No fault');
});

test('without a sheet the survey has ranges from valve data; the pin is lit from below and turns over', async ({
	page
}) => {
	await start(page);
	await toPage(page, 'survey');
	await expect(line(page, 'if.screen').locator('.expected')).toContainText('from valve data');
	await expect(line(page, 'output.cathode').locator('.expected')).toContainText(/sound from .+ to .+/);
	const phone = (page.viewportSize()?.width ?? 0) < 1150;
	if (phone) await line(page, 'output.cathode').locator('summary').click();
	else {
		await page.getByRole('button', { name: 'Bring it to full mains' }).click();
		await page.getByRole('button', { name: 'It is on full mains' }).click();
		await field(page, 'output.cathode').focus();
	}
	const base = page.getByRole('img', { name: /noval.*wiring side, pin 3 marked/i });
	await expect(base).toBeVisible();
	await page.getByRole('button', { name: 'See it from the valve side' }).click();
	await expect(page.getByRole('img', { name: /valve side, pin 3 marked/i })).toBeVisible();
});

test('the line-up and six answers find the kind of set, and what was taken for granted is told', async ({
	page
}) => {
	await startJob(page, { set: 'AM AC/DC set', heard: {}, flow: 'HT measures low' });
	await toPage(page, 'set');
	await page.locator('summary', { hasText: 'Find it from the valves' }).click();
	await page.getByLabel(/^Valves in the set/).fill('ECC85 ECH81 EBF89 EABC80 EL84 EM84');
	await page
		.getByRole('group', { name: 'Mains transformer?' })
		.getByRole('radio', { name: 'Transformer' })
		.check();
	await page.getByRole('group', { name: 'Has it FM?' }).getByRole('radio', { name: 'Yes' }).check();
	await page
		.getByRole('group', { name: 'Which rectifier?' })
		.getByRole('radio', { name: 'Selenium' })
		.check();
	await page.getByRole('button', { name: 'Find the nearest kind of set' }).click();
	await expect(page.getByText(/Without a place in this kind of set: EM84/)).toBeVisible();
	await page.getByRole('button', { name: 'Take this kind of set and its valves' }).click();
	await expect(page.getByText('The line-up is in its places.')).toBeVisible();
	await toPage(page, 'survey');
	await expect(line(page, 'if.screen')).toContainText('EBF89');
	await expect(line(page, 'if.screen').locator('.expected')).toContainText('from valve data');
});

test('an EF86 where the EF89 belongs is stopped before the first power step', async ({ page }) => {
	await startJob(page, { set: AM_FM, heard: {}, flow: HOT_OUTPUT });
	const job = page.url();
	await toPage(page, 'set');
	await page.getByLabel('In the holder: IF pentode').fill('EF86');
	await expect(page.getByText('Clash: settle it before power.')).toBeVisible();
	await keepSet(page);
	await page.goto(job);
	await expect(heading(page)).toHaveText('EF86 where EF89 belongs');
	expect((await events(page)).filter((event) => event.kind === 'power')).toEqual([]);
	await press(page, 'EF89 is in its place now');
	await expect(heading(page)).not.toHaveText('EF86 where EF89 belongs');
	await press(page, 'Go to this step');
	await expect(heading(page)).toHaveText('Put it on the limiter');
});

test('a lost decimal and a wrong sign are asked about before they are kept', async ({ page }) => {
	await start(page);
	await onSurvey(page);
	await field(page, 'ht.smoothed').fill('2.5');
	await field(page, 'ht.smoothed').press('Enter');
	await expect(line(page, 'ht.smoothed').getByRole('alert')).toContainText('decimal');
	expect((await events(page)).filter(({ kind }) => kind === 'read')).toEqual([]);
	await line(page, 'ht.smoothed').getByRole('button', { name: '250 V is meant' }).click();
	await expect(line(page, 'ht.smoothed').locator('.verdict')).toContainText('as expected');
	await field(page, 'if.screen').fill('400');
	await field(page, 'if.screen').press('Enter');
	await expect(page.getByText(/stands above HT/)).toBeVisible();
	await line(page, 'if.screen').getByRole('button', { name: 'Take this reading back' }).click();
	await expect(page.getByText(/stands above HT/)).toBeHidden();
	await expect(field(page, 'if.screen')).toHaveValue('');
});

test('a sheet copied from a page: milliamps, dashes, decimal commas, its meter; what no field takes is listed and kept as a note', async ({
	page
}) => {
	await start(page);
	await toPage(page, 'set');
	await page.getByLabel('IF valve anode', { exact: true }).fill('195');
	await page.locator('summary', { hasText: 'Paste a table' }).click();
	await page
		.getByLabel(/^The table as text/)
		.fill(
			[
				'Measured with 20 kΩ/V, mains 220 V',
				'Valve  Anode V  Anode mA  Screen V  Cathode V',
				'V3 EF89  200  9  85  2,1',
				'V5 EL84  245  46  -  7,3',
				'EM34  60  -  -  -',
				'EABC80  90/85  0,5  -  -'
			].join('\n')
		);
	await page.getByRole('button', { name: 'Take what can be read' }).click();
	await expect(page.getByText('5 voltages taken, 2 kept aside.')).toBeVisible();
	await expect(page.getByText(/^Line 5: .*EM34/)).toContainText('correct the type there');
	await expect(page.getByText(/^Line 6: .*EABC80/)).toContainText('are two figures');
	await expect(page.getByText('IF valve anode: 200 V, in place of 195')).toBeVisible();
	await expect(page.getByLabel('Cathode of the IF pentode', { exact: true })).toHaveValue('2.1 V');
	await expect(page.getByLabel('Its meter, ohms per volt')).toHaveValue('20 kΩ');
	await page.getByRole('button', { name: 'Keep these lines as a note of the job' }).click();
	await expect(page.getByText('Kept as a note of the job.')).toBeVisible();
	expect((await events(page)).filter(({ kind }) => kind === 'noted')).toMatchObject([
		{ data: { text: expect.stringContaining('EM34') } }
	]);
	await page.getByRole('button', { name: 'Put back what stood in the fields' }).click();
	await expect(page.getByLabel('IF valve anode', { exact: true })).toHaveValue('195');
	await expect(page.getByLabel('Cathode of the IF pentode', { exact: true })).toHaveValue('');
});

test('what is typed and not kept is there again after a reload, and after a look at the survey', async ({
	page
}) => {
	await start(page);
	await toPage(page, 'set');
	await page.getByLabel('IF valve screen', { exact: true }).fill('95');
	await page.getByLabel('In the holder: Output pentode').fill('EL84');
	await page.reload();
	await expect(page.getByText(/typed here before and not kept/)).toBeVisible();
	await expect(page.getByLabel('IF valve screen', { exact: true })).toHaveValue('95');
	await page.getByRole('link', { name: 'Go to the survey' }).click();
	await expect(main(page).getByRole('heading', { level: 1 })).toHaveText('Voltage survey');
	await page.goBack();
	await expect(page.getByLabel('In the holder: Output pentode')).toHaveValue('EL84');
	await keepSet(page);
	await page.reload();
	await expect(page.getByLabel('IF valve screen', { exact: true })).toHaveValue('95 V');
	await expect(page.getByText(/typed here before and not kept/)).toBeHidden();
});

test('slips in the sheet are asked about, and a field that cannot be read is named', async ({ page }) => {
	await start(page);
	await toPage(page, 'set');
	const anode = page.getByLabel('Anode of the output valve', { exact: true });
	await anode.fill('2.45');
	await expect(page.getByText(/^\? Anode of the output valve: 2.45 V.*Is it 245 V\?$/)).toBeVisible();
	await anode.fill('-245');
	await expect(page.getByText(/Anode of the output valve: −245 V.*Is it 245 V\?/)).toBeVisible();
	await anode.fill('2x5');
	await page.getByRole('button', { name: 'Keep these data with the job' }).click();
	await expect(page.getByRole('alert').getByText(/^Anode of the output valve: /)).toBeVisible();
	await expect(anode).toHaveValue('2x5');
	await page.getByLabel('By the drawing: IF pentode').fill('EF98');
	await expect(page.getByText(/no data for a valve "EF98".*EF89/)).toBeVisible();
});

test('a survey by the keyboard alone, from the gate to the last place, without a network', async ({
	page,
	context,
	complaints
}) => {
	await start(page);
	await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	await context.setOffline(true);
	await toPage(page, 'survey');
	/** Tab on until the wanted thing has the focus. */
	const tabTo = async (name: string) => {
		for (let presses = 0; presses < 40; presses++) {
			await page.keyboard.press('Tab');
			const at = await page.evaluate(() => document.activeElement?.textContent?.trim() ?? '');
			if (at === name) return;
		}
		throw new Error(`Tab never came to “${name}”.`);
	};
	await tabTo('Bring it to full mains');
	await page.keyboard.press('Enter');
	await expect(main(page).getByRole('heading', { level: 1 }).nth(1)).toHaveText('Full mains');
	await tabTo('It is on full mains');
	await page.keyboard.press('Enter');
	await expect(field(page, 'ht.reservoir')).toBeVisible();
	for (let presses = 0; presses < 40; presses++) {
		if (await field(page, 'ht.reservoir').evaluate((input) => input === document.activeElement)) break;
		await page.keyboard.press('Tab');
	}
	await expect(field(page, 'ht.reservoir')).toBeFocused();
	const points = await page
		.locator('li[data-point]')
		.evaluateAll((lines) => lines.map((one) => one.getAttribute('data-point') ?? ''));
	expect(points.length).toBeGreaterThan(14);
	for (const point of points) {
		await expect(field(page, point)).toBeFocused();
		const volts = /(\d[\d.]*)\sV/.exec(
			(await line(page, point).locator('.expected').textContent()) ?? ''
		)?.[1];
		await page.keyboard.type(volts ?? '0');
		await page.keyboard.press('Enter');
	}
	await expect(page.getByRole('region', { name: 'What the readings say' })).toBeFocused();
	await expect(page.getByText(/readings are as expected/)).toBeVisible();
	expect((await events(page)).filter(({ kind }) => kind === 'read')).toHaveLength(points.length);
	expect(complaints).toEqual([]);
});

test('the question after a slip is answered by the keyboard', async ({ page }) => {
	await start(page);
	await onSurvey(page);
	await field(page, 'ht.smoothed').fill('25');
	await field(page, 'ht.smoothed').press('Enter');
	await expect(line(page, 'ht.smoothed').getByRole('alert')).toContainText('decimal');
	await page.keyboard.press('Tab');
	await expect(line(page, 'ht.smoothed').getByRole('button', { name: '250 V is meant' })).toBeFocused();
	await page.keyboard.press('Enter');
	await expect(field(page, 'output.grid')).toBeFocused();
	await expect(field(page, 'ht.smoothed')).toHaveValue('250 V');
});

test('cathode volts with the valve out, and an anode below zero that stays as typed, each get a sentence', async ({
	page
}) => {
	await start(page);
	await onSurvey(page);
	await line(page, 'if.cathode').getByRole('checkbox', { name: 'The valve is out of its holder' }).check();
	await field(page, 'if.cathode').fill('4');
	await field(page, 'if.cathode').press('Enter');
	await expect(page.getByText(/4 V with the valve out/)).toBeVisible();
	await expect(line(page, 'if.cathode').locator('.verdict')).toHaveText('Read with the valve out');
	await field(page, 'if.anode').fill('-200');
	await field(page, 'if.anode').press('Enter');
	await line(page, 'if.anode').getByRole('button', { name: 'It stays as typed' }).click();
	await expect(page.getByText(/stands below HT negative/)).toBeVisible();
});

test('a screen that AVC lifts on a station is set aside; between stations the same volts are high', async ({
	page
}) => {
	await start(page);
	await onSurvey(page);
	await page.getByRole('radio', { name: 'A station comes in' }).check();
	await field(page, 'if.screen').fill('150');
	await field(page, 'if.screen').press('Enter');
	await expect(line(page, 'if.screen').locator('.verdict')).toContainText('not judged');
	await expect(line(page, 'if.screen')).toContainText('Read with a station in.');
	await expect(line(page, 'if.screen').locator('.alarm')).toContainText('AVC holds this valve back');
	await page.getByRole('radio', { name: 'Between stations' }).check();
	await line(page, 'if.screen').getByRole('button', { name: 'Take this reading back' }).click();
	await field(page, 'if.screen').fill('150');
	await field(page, 'if.screen').press('Enter');
	await expect(line(page, 'if.screen').locator('.verdict')).toContainText('high');
	expect((await events(page)).flatMap(({ kind, data }) => (kind === 'read' ? [data] : []))).toMatchObject([
		{ tuned: 'station' },
		{ point: 'if.screen' }
	]);
});

test('bias from HT negative: the lead has its place, its current is that of the whole set, no weak pin is named', async ({
	page
}) => {
	await startJob(page, {
		set: 'AM set with mains transformer, bias from HT negative',
		heard: {},
		flow: 'HT measures low',
		playing: true
	});
	await toPage(page, 'set');
	await addPart(page, 'Bias resistor in HT negative', '120', 'R1');
	await keepSet(page);
	await onSurvey(page);
	await expect(page.getByText(/leave the black lead on the chassis/)).toBeVisible();
	await field(page, 'ht.negative').fill('7.2');
	await field(page, 'ht.negative').press('Enter');
	await line(page, 'ht.negative').getByRole('button', { name: '−7.2 V is meant' }).click();
	await expect(line(page, 'ht.negative').locator('.verdict')).toContainText('as expected');
	await expect(line(page, 'ht.negative').locator('.worked').first()).toContainText(
		'Current of the whole set 60 mA'
	);
	// None of its rimlock valves has pins that are checked well enough.
	await expect(line(page, 'output.anode')).toContainText('find it on the maker');
	await expect(page.getByText(/\bpin \d/)).toHaveCount(0);
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByText(/\bpin \d/i)).toHaveCount(0);
	await expect(page.getByRole('img', { name: /^Base/ })).toHaveCount(0);
});

test('an AC/DC set with other valves: HT by the mains of today, the chain added up, the signal pin of its own mixer', async ({
	page
}) => {
	await startJob(page, { set: 'AM AC/DC set', heard: {}, flow: 'HT measures low', playing: true });
	await toPage(page, 'set');
	for (const [place, type] of Object.entries({
		'Pentagrid mixer': 'UCH81',
		'IF pentode': 'UF89',
		'Double-diode-triode': 'UABC80',
		'Beam output valve': 'UL84',
		'Half-wave rectifier': 'UY85'
	}))
		await page.getByLabel(`By the drawing: ${place}`).fill(type);
	await addPart(page, 'Dropper of the heater chain', '1000');
	const wanted = page.getByRole('paragraph').filter({ hasText: 'Enter the mains of today' });
	await expect(wanted).toBeVisible();
	await page.locator('summary', { hasText: 'Mains and meter' }).click();
	await page.getByLabel('Mains today').fill('-230');
	await page.getByRole('button', { name: 'Judge by these' }).click();
	await expect(page.getByText('Mains: type a value above nothing')).toBeVisible();
	await page.getByLabel('Mains today').fill('230');
	await page.getByRole('button', { name: 'Judge by these' }).click();
	await expect(page.getByText('Expected volts stand at these now.')).toBeVisible();
	await expect(wanted).toHaveCount(0);
	await keepSet(page);
	await toPage(page, 'survey');
	await expect(line(page, 'ht.reservoir').locator('.says')).toContainText(
		'half-wave rectifier on 230 V AC mains'
	);
	await expect(line(page, 'mixer.anode')).toContainText('UCH81, pin 6');
	await expect(line(page, 'oscillator.grid')).toContainText('UCH81, pin 9');
	await expect(line(page, 'if.screen').locator('.says')).toContainText('EF89, the sister of the UF89,');
});

test('on paper every place has its name, its pin and room to write; the set is a table', async ({ page }) => {
	await start(page);
	await pasteSheet(page);
	await keepSet(page);
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByRole('table', { name: 'Valves' })).toContainText('EABC80');
	await expect(page.getByRole('table', { name: 'Volts of the sheet' }).getByRole('row')).toHaveCount(11);
	await expect(main(page).getByRole('textbox')).toHaveCount(0);
	await page.emulateMedia({ media: 'screen' });
	await toPage(page, 'survey');
	await page.emulateMedia({ media: 'print' });
	for (const row of await page.locator('li[data-point]').all())
		await expect(row.getByRole('heading')).toBeVisible();
	await expect(line(page, 'output.cathode')).toContainText('EL84, pin 3');
	await expect(page.getByRole('img', { name: /noval.*pin 2 and 3 and 7 and 9 marked/i })).toBeVisible();
	await expect(main(page).getByRole('button')).toHaveCount(0);
});

for (const colorScheme of ['light', 'dark'] as const)
	test(`set and survey: axe and 320 px, ${colorScheme}`, async ({ page }, info) => {
		await page.emulateMedia({ colorScheme });
		await start(page);
		await pasteSheet(page);
		await page.getByLabel('In the holder: IF pentode').fill('EF86');
		await keepSet(page);
		const shots = process.env['SHOTS'];
		const check = async (name: string) => {
			const found = await new AxeBuilder({ page }).analyze();
			expect(found.violations.map(({ id, nodes }) => `${name} ${id}: ${nodes[0]?.html ?? ''}`)).toEqual([]);
			if (shots) {
				const phone = info.project.name === 'phone';
				await page.setViewportSize(phone ? { width: 360, height: 740 } : { width: 1440, height: 900 });
				await page.screenshot({
					path: `${shots}/${name}-${info.project.name}-${colorScheme}.png`,
					fullPage: true
				});
			}
			await page.setViewportSize({ width: 320, height: 700 });
			expect(await page.evaluate(() => document.documentElement.scrollWidth), name).toBeLessThanOrEqual(320);
			await page.setViewportSize({ width: 1280, height: 800 });
		};
		await check('set');
		await toPage(page, 'survey');
		await page.getByRole('button', { name: 'Bring it to full mains' }).click();
		await expect(page.getByRole('heading', { name: 'EF86 where EF89 belongs' })).toBeVisible();
		await check('clash');
		await page.getByRole('button', { name: 'EF89 is in its place now' }).click();
		await page.getByRole('button', { name: 'It is on full mains' }).click();
		for (const [point, volts] of Object.entries({
			'ht.reservoir': '270',
			'ht.smoothed': '200',
			'output.cathode': '10',
			'if.screen': '20'
		})) {
			await field(page, point).fill(volts);
			await field(page, point).press('Enter');
			await expect(line(page, point).locator('.verdict')).not.toHaveText('');
		}
		await check('survey');
	});

test('a raised output grid asks for the coupling capacitor to be lifted, and its free end tells the leak', async ({
	page,
	complaints
}) => {
	await start(page);
	await onSurvey(page);
	const readings = {
		'ht.smoothed': '255',
		'output.grid': '3.5',
		'output.screen': '250',
		'output.anode': '238',
		'output.cathode': '10.4',
		'af.anode': '80'
	};
	for (const [point, volts] of Object.entries(readings)) {
		await field(page, point).fill(volts);
		await field(page, point).press('Enter');
		// What looks like a slip is asked about: these are as read.
		const sure = line(page, point).getByRole('button', { name: 'It stays as typed' });
		await expect(sure.or(line(page, point).getByText('Take this reading back'))).toBeVisible();
		if (await sure.isVisible()) await sure.click();
		await expect(line(page, point).getByText('Take this reading back')).toBeVisible();
	}
	const asked = page.getByRole('region', { name: 'Readings that a stage asks for' });
	await expect(asked).toContainText('lift the grid end of the coupling capacitor');
	await field(page, 'output.coupling-end').fill('44');
	await field(page, 'output.coupling-end').press('Enter');
	// 80 V divided between the leak and the 10 Mohm of the meter.
	await expect(page.getByText(/The coupling capacitor leaks: (7\.[89]|8\.\d)\sMΩ/)).toBeVisible();
	const { violations } = await new AxeBuilder({ page }).include('.closer').analyze();
	expect(violations).toEqual([]);
	await line(page, 'output.coupling-end').getByRole('button', { name: 'Take this reading back' }).click();
	await expect(field(page, 'output.coupling-end')).toHaveValue('');
	expect(complaints).toEqual([]);
});

test('the supply is checked by its sheet and its winding; the ripple it asks for is kept, and a measured part is marked so', async ({
	page,
	complaints
}, info) => {
	await start(page);
	await pasteSheet(page);
	await page.getByLabel('HT winding, AC volts of one half').fill('25000');
	await page.getByRole('button', { name: 'Keep these data with the job' }).click();
	await expect(page.getByRole('alert')).toContainText('25000 is more than a set has');
	await page.getByLabel('HT winding, AC volts of one half').fill('250');
	await page
		.getByRole('region', { name: 'HT supply' })
		.getByLabel(/reservoir/i)
		.fill('50');
	await page.getByLabel('HT current of the whole set').fill('70');
	await addPart(page, 'Smoothing: reservoir to HT line', '1.2k', 'R12');
	await page.getByLabel('Measured on the part').check();
	await keepSet(page);
	expect((await events(page)).findLast(({ kind }) => kind === 'set-described')?.data).toMatchObject({
		supply: { winding: 250, reservoir: 50e-6, current: 0.07 },
		parts: { 'ht.smoothing-resistor': { value: 1200, measured: true, name: 'R12' } }
	});
	await page.reload();
	await expect(page.getByLabel('Measured on the part')).toBeChecked();
	await expect(page.getByLabel('HT current of the whole set')).toHaveValue('70 mA');
	await onSurvey(page);
	await field(page, 'ht.reservoir').fill('215');
	await field(page, 'ht.reservoir').press('Enter');
	await expect(field(page, 'ht.smoothed')).toBeFocused();
	await field(page, 'ht.smoothed').fill('196');
	await field(page, 'ht.smoothed').press('Enter');
	const together = page.getByRole('region', { name: 'What the readings say' });
	await expect(together).toContainText('Supply, EZ80');
	await expect(together).toContainText('250 V AC on each half of the winding');
	await expect(together).toContainText(
		/reservoir capacitor has dried out to a size that these volts do not show/
	);
	const asked = page.getByRole('region', { name: 'Readings that a stage asks for' });
	const shots = process.env['SHOTS'];
	if (shots)
		for (const colorScheme of ['light', 'dark'] as const) {
			await page.emulateMedia({ colorScheme });
			await page.screenshot({
				path: `${shots}/supply-${info.project.name}-${colorScheme}.png`,
				fullPage: true
			});
		}
	await expect(asked.getByRole('listitem')).toHaveCount(1);
	const point = (await asked.getByRole('listitem').getAttribute('data-point')) ?? '';
	expect(point).toMatch(/^ht\.(?:ripple|winding-[12])$/);
	await field(page, point).fill(point === 'ht.ripple' ? '40' : '244');
	await field(page, point).press('Enter');
	await expect(line(page, point).getByText('Take this reading back')).toBeVisible();
	if (point !== 'ht.ripple') {
		await expect(field(page, 'ht.ripple').or(field(page, 'ht.winding-2'))).toBeVisible();
	}
	expect(complaints).toEqual([]);
});
