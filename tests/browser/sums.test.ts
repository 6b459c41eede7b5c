import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import { expect, test } from './bench.ts';

const field = (page: Page, label: string) => page.getByRole('textbox', { name: label });
const resistor = (page: Page) =>
	page.getByRole('textbox', { name: /^Resistor, measured cold and unplugged/ });
const volts = (page: Page) => page.getByRole('textbox', { name: /^Volts across it( V)?$/ });
const result = (page: Page) => page.getByRole('region', { name: 'Result', exact: true });

test('the header leads to the sums, and a word finds the one that is wanted', async ({ page }) => {
	await page.goto('./');
	await page.getByRole('link', { name: 'Sums' }).click();
	await expect(page.getByRole('heading', { level: 1 })).toHaveText('What do you want to know?');
	const rows = page.getByRole('main').getByRole('listitem');
	expect(await rows.count()).toBeGreaterThan(5);
	await page.getByRole('searchbox').fill('overloaded');
	await expect(page.getByRole('status').filter({ hasText: /^[1-5] of \d+ sums$/ })).toBeVisible();
	await rows.getByRole('link', { name: /^Is this resistor overloaded/ }).click();
	await expect(page.getByRole('heading', { level: 1 })).toContainText('Is this resistor overloaded');
});

test('a word that no sum knows says so and leads back to all of them', async ({ page }) => {
	await page.goto('./sums/');
	await page.getByRole('searchbox').fill('transistor');
	await expect(page.getByText('No sum speaks of “transistor”')).toBeVisible();
	await page.getByRole('button', { name: 'Show every sum' }).click();
	expect(await page.getByRole('main').getByRole('listitem').count()).toBeGreaterThan(5);
});

test('65 V across 1.5 kohm gives 43 mA and 2.8 W', async ({ page, complaints }) => {
	await page.goto('./sums/resistor-drop/');
	await resistor(page).fill('1k5');
	await volts(page).fill('65');
	await expect(result(page)).toContainText(/43\.3.mA/);
	await expect(result(page)).toContainText(/2\.82.W/);
	await expect(page.getByText('1.5 kΩ (1,500 Ω)')).toBeVisible();
	expect(complaints).toEqual([]);
});

test('with its rating the verdict comes first, in words, and is told when the typing rests', async ({
	page
}) => {
	await page.goto('./sums/resistor-drop/#R_ohm=1200&V=87&P_rated_W=4');
	await expect(result(page)).toHaveText(/^\s*Overloaded.*158.%/s);
	await expect(page.getByRole('heading', { name: 'Look at next' })).toBeVisible();
	await expect(page.getByRole('status').filter({ hasText: 'Overloaded.' })).toBeAttached();
});

test('the address keeps the inputs as typed over a reload, and another address fills the form', async ({
	page
}) => {
	await page.goto('./sums/resistor-drop/');
	await resistor(page).fill('1k5');
	await volts(page).fill('65 V');
	await expect(page).toHaveURL(/#R_ohm=1k5&V=65\+V$/);
	await page.reload();
	await expect(resistor(page)).toHaveValue('1k5');
	await expect(volts(page)).toHaveValue('65 V');
	await expect(result(page)).toContainText(/43\.3.mA/);
	await page.evaluate(() => (location.hash = '#R_ohm=10k&V=50'));
	await expect(resistor(page)).toHaveValue('10k');
	await expect(result(page)).toContainText(/5.mA/);
});

test('12..5 names the field and the cure, keeps the text, and speaks once the field is left', async ({
	page
}) => {
	await page.goto('./sums/resistor-drop/');
	await volts(page).pressSequentially('12..5');
	await expect(volts(page)).not.toHaveAttribute('aria-invalid');
	await volts(page).press('Enter');
	await expect(volts(page)).toBeFocused();
	await expect(volts(page)).toHaveAttribute('aria-invalid', 'true');
	await expect(volts(page)).toHaveAccessibleDescription(
		/There are two points in "12\.\.5"\. Keep one: 12\.5\./
	);
	await expect(page.getByRole('status').filter({ hasText: 'Keep one: 12.5.' })).toBeVisible();
	await expect(result(page)).toContainText('“Volts across it”');
	await expect(volts(page)).toHaveValue('12..5');
	await volts(page).fill('12.5');
	await expect(volts(page)).not.toHaveAttribute('aria-invalid');
});

test('a value beyond the range of a sum says so beside its field', async ({ page }) => {
	await page.goto('./sums/resistor-drop/#R_ohm=1k5&V=5000');
	await expect(volts(page)).toHaveAccessibleDescription(
		/“Volts across it” is 5,000 V\. This sum holds from 0 V to 1,000 V/
	);
});

test('a doubtful value is asked, not guessed', async ({ page }) => {
	await page.goto('./sums/resistor-drop/');
	await resistor(page).fill('1,500');
	await page.getByRole('button', { name: '1.5 Ω', exact: true }).click();
	await expect(resistor(page)).toHaveValue('1.5 Ω');
	await expect(resistor(page)).toBeFocused();
});

test('the keys put minus, point and prefixes at the caret and leave the caret in the field', async ({
	page,
	isMobile
}) => {
	await page.goto('./sums/grid-leakage/#V_grid=2&R_grid_ohm=470k');
	const grid = field(page, 'Volts measured on the grid');
	const box = page.locator('.field', { has: grid });
	await grid.focus();
	if (!isMobile) await box.getByRole('button', { name: /signs and prefixes/ }).click();
	await grid.press('Home');
	const minus = box.getByRole('button', { name: '− minus' });
	await minus.click();
	await grid.press('End');
	await box.getByRole('button', { name: 'm milli' }).click();
	await expect(grid).toHaveValue('-2m');
	await expect(grid).toBeFocused();
	const { width, height } = (await minus.boundingBox()) ?? { width: 0, height: 0 };
	expect(Math.min(width, height)).toBeGreaterThanOrEqual(44);
});

test('the way is chosen by what is known, and comes back with the address', async ({ page }) => {
	await page.goto('./sums/grid-leakage/');
	await page.getByRole('radio', { name: 'Measured grid volts' }).check();
	await expect(field(page, 'Insulation of the capacitor')).toHaveCount(0);
	await field(page, 'DC volts at the far plate').fill('90');
	await expect(page).toHaveURL(/V_feed=90&by=measured-grid-volts$/);
	await page.reload();
	await expect(page.getByRole('radio', { name: 'Measured grid volts' })).toBeChecked();
	await field(page, 'Volts measured on the grid').fill('1.5');
	await field(page, 'Resistance from grid to its return').fill('470k');
	await expect(result(page)).toContainText('Bad');
	await expect(page.getByText('3.19 µA leaks through 27.7 MΩ.')).toBeVisible();
});

test('Enter goes from field to field', async ({ page }) => {
	await page.goto('./sums/resistor-drop/');
	await resistor(page).fill('1k5');
	await resistor(page).press('Enter');
	await expect(volts(page)).toBeFocused();
});

test('the order of alignment is a table below its warnings', async ({ page }) => {
	await page.goto('./sums/alignment-order/');
	await page.getByRole('radio', { name: 'AM', exact: true }).check();
	await expect(page.getByText('Cores come last')).toBeVisible();
	await expect(page.getByRole('row').filter({ hasText: 'last IF can' }).first()).toBeVisible();
	await expect(page).toHaveURL(/#band=AM$/);
});

test('an example with a known result fills the form', async ({ page }) => {
	await page.goto('./sums/resistor-drop/');
	await page.getByRole('link', { name: 'R 10 kΩ, V 50 V' }).click();
	await expect(result(page)).toContainText(/5.mA.*0\.25.W/s);
});

const reforming =
	'./sums/reform-progress/#limit_mA=1.1&V_applied=350&V_working=350&series_min_mA=10|3.1;30|2.6;60|2.45;90|2.4';
const cell = (page: Page, column: RegExp, row: number) =>
	page.getByRole('textbox', { name: new RegExp(`${column.source}.*row ${row}$`) });

test('readings of a reforming capacitor are typed row by row, and the address keeps them', async ({
	page
}) => {
	await page.goto(reforming);
	await expect(cell(page, /^Leakage/, 4)).toHaveValue('2.4');
	await expect(result(page)).toContainText('2.4');
	await cell(page, /^Time/, 5).fill('2 h');
	await cell(page, /^Time/, 5).press('Enter');
	await expect(cell(page, /^Leakage/, 5)).toBeFocused();
	await cell(page, /^Leakage/, 5).fill('2.38');
	await expect(result(page)).toContainText('2.38');
	await expect(page).toHaveURL(/2\+h%7C2\.38(&|$)/);
	await page.reload();
	await expect(cell(page, /^Time/, 5)).toHaveValue('2 h');
	await page.getByRole('button', { name: 'Remove row 1' }).click();
	await expect(cell(page, /^Time/, 1)).toHaveValue('30');
});

test('a table from elsewhere is pasted into the first cell', async ({ page }) => {
	await page.goto('./sums/reform-progress/#limit_mA=1.1&V_applied=350');
	await expect(page.getByRole('textbox', { name: /^Leakage allowed/ })).toHaveValue('1.1');
	await cell(page, /^Time/, 1).evaluate((input) => {
		const clipboardData = new DataTransfer();
		clipboardData.setData('text', '10\t3.1\n30\t1.2\n60\t0.5\n');
		input.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
	});
	await expect(cell(page, /^Leakage/, 3)).toHaveValue('0.5');
	await expect(page.getByRole('img', { name: /^Leakage against time/ })).toBeVisible();
});

test('levels of a stage are typed with the names of their places', async ({ page }) => {
	await page.goto('./sums/stage-gain/#level_uV=2nd mixer grid 25 µV; IF input 800; IF grid 850');
	await expect(result(page)).toContainText('34');
	const table = page.getByRole('row').filter({ hasText: '2nd mixer grid to IF input' });
	await expect(table).toContainText('32');
	const levels = page.getByRole('textbox', { name: /^Levels for the same output/ });
	await levels.fill('IF grid 850; last one');
	await levels.blur();
	await expect(page.getByText('There is no number in').first()).toBeVisible();
	await expect(page.getByText('2nd mixer grid to IF input')).toHaveCount(0);
});

test('a screen above the HT is refused in words, without a verdict', async ({ page }) => {
	await page.goto(
		'./sums/valve-operating-point/#V_k=10&R_k_ohm=1k&V_a=200&V_g2=300&V_supply=250&P_a_max_W=2'
	);
	await expect(page.getByText('Nothing there stands above the HT that feeds it').first()).toBeVisible();
	await expect(result(page)).not.toContainText(/limit/i);
});

test('a row that is half filled is asked for once it is left, and there is no verdict', async ({ page }) => {
	await page.goto(reforming);
	await cell(page, /^Time/, 5).fill('120');
	await cell(page, /^Time/, 5).blur();
	await expect(page.getByRole('status').filter({ hasText: /row 5: “leakage” is missing/i })).toBeVisible();
	await expect(result(page)).not.toContainText(/change/i);
});

test('leakage against time is a picture, and the same figures are a table beside it', async ({ page }) => {
	await page.goto(reforming);
	await expect(page.getByRole('img', { name: /Leakage, mA against/ })).toBeVisible();
	const row = page.getByRole('figure').getByRole('row', { name: /^30 2\.6/ });
	await expect(row).toBeVisible();
});

test('a tolerance beside a value gives the result its ±, and goes into the address', async ({ page }) => {
	await page.goto('./sums/resistor-drop/#R_ohm=1k2&V=60&P_rated_W=4');
	await page.getByRole('checkbox', { name: /tolerances/ }).check();
	await field(page, 'Tolerance of Resistor, measured cold and unplugged').fill('10');
	await expect(result(page)).toContainText(/75 ± 7\.6.%/);
	await expect(page).toHaveURL(/R_ohm=1k2\+%C2%B110/);
	await page.reload();
	await expect(field(page, 'Tolerance of Resistor, measured cold and unplugged')).toHaveValue('10');
	await expect(resistor(page)).toHaveValue('1k2');
});

test('a sum prints with its question, inputs, result, picture and sources, and without buttons', async ({
	page
}) => {
	await page.goto(reforming);
	await expect(page.getByRole('img', { name: /^Leakage against time/ })).toBeVisible();
	await page.emulateMedia({ media: 'print' });
	await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
	await expect(page.getByRole('img', { name: /^Leakage against time/ })).toBeVisible();
	await expect(page.getByRole('heading', { name: 'Sources' })).toBeVisible();
	await expect(page.getByRole('main').getByRole('button')).toHaveCount(0);
	await expect(cell(page, /^Leakage/, 4)).toBeVisible();
});

test('every sum is a page that holds its question before any script runs', async ({ page, request }) => {
	await page.goto('./sums/');
	const links = page.getByRole('main').getByRole('list').getByRole('link');
	for (const link of await links.all()) {
		const address = await link.evaluate((a: HTMLAnchorElement) => a.href);
		expect(await (await request.get(address)).text()).toContain((await link.textContent()) ?? '?');
	}
});

test('the pages of the sums load neither schema nor YAML reader', async ({ page }) => {
	const scripts: Promise<string>[] = [];
	page.on('response', (response) => {
		if (response.request().resourceType() === 'script') scripts.push(response.text());
	});
	await page.goto('./sums/resistor-drop/#R_ohm=1k5&V=65');
	await expect(result(page)).toContainText(/43\.3.mA/);
	const code = (await Promise.all(scripts)).join('\n');
	expect(code).toContain('resistor-drop');
	// Names that stay in the code when it is made small: a class of zod, a class of yaml.
	expect(code).not.toMatch(/ZodError|\$ZodType|YAMLParseError|YAMLMap/);
});

for (const colorScheme of ['light', 'dark'] as const) {
	test(`axe finds nothing on the sums by ${colorScheme} theme`, async ({ page, complaints }) => {
		test.slow();
		await page.emulateMedia({ colorScheme });
		const addresses = [
			'./sums/',
			'./sums/resistor-drop/#R_ohm=1,500&V=12..5',
			'./sums/resistor-drop/#R_ohm=1k2&V=60&P_rated_W=4',
			'./sums/grid-leakage/#V_feed=85&R_leak_ohm=20M&R_grid_ohm=1M',
			'./sums/meter-loading/#V_supply=50&R_top_ohm=45k&R_bottom_ohm=5k&range_V=5;10&ohm_per_volt=20k',
			'./sums/alignment-order/#band=AM',
			reforming
		];
		for (const address of addresses) {
			await page.goto('about:blank');
			await page.goto(address);
			if (address === reforming) await expect(page.getByRole('img').first()).toBeVisible();
			await expect(page.getByRole('textbox').or(page.getByRole('searchbox')).first()).toBeVisible();
			expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
		}
		expect(complaints).toEqual([]);
	});
}

test('nothing runs off a screen of 320 px', async ({ page }) => {
	await page.setViewportSize({ width: 320, height: 640 });
	const addresses = [
		'./sums/',
		'./sums/dial-frequencies/#f_signal_kHz=98000&IF_MHz=10.7',
		'./sums/alignment-order/#band=AM',
		reforming,
		'./sums/meter-loading/#V_supply=50&R_top_ohm=45k&R_bottom_ohm=5k&range_V=5;10&ohm_per_volt=20k'
	];
	for (const address of addresses) {
		await page.goto('about:blank');
		await page.goto(address);
		await page.waitForLoadState('networkidle');
		if (address === reforming) await expect(page.getByRole('img').first()).toBeVisible();
		expect(await page.evaluate(() => document.documentElement.scrollWidth), address).toBe(320);
	}
});

test('the field that has the focus is never behind the line with the result', async ({ page }) => {
	await page.goto('./sums/valve-operating-point/#V_k=7.3&R_k_ohm=170');
	const boxes = page.getByRole('textbox');
	for (const box of await boxes.all()) {
		await box.focus();
		const covered = await box.evaluate((input) => {
			const { left, top, width, height } = input.getBoundingClientRect();
			const at = (y: number) => document.elementFromPoint(left + width / 2, y);
			return ![top + 4, top + height / 2, top + height - 4].every((y) => at(y) === input);
		});
		expect(covered).toBe(false);
	}
});
