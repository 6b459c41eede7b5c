import { AxeBuilder } from '@axe-core/playwright';
import type { Locator, Page } from '@playwright/test';
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
	await expect(
		page.getByRole('status').filter({ hasText: /^[1-9] of \d+ sums, the likeliest first$/ })
	).toBeVisible();
	await rows
		.first()
		.getByRole('link', { name: /^Is this resistor overloaded/ })
		.click();
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
	// A page that may not be broken begins on the second sheet.
	const kept = await page
		.locator('main > article')
		.evaluate((article) => getComputedStyle(article).breakInside);
	expect(kept).toBe('auto');
});

test('an address with values that cannot be read says so at their fields, and tells strange names', async ({
	page,
	complaints
}) => {
	await page.goto('./sums/resistor-drop/#R_ohm=1k2x&V=-87&P_rated_W=4&by=nonsense&colour=%3Cb%3E');
	await expect(resistor(page)).toHaveValue('1k2x');
	await expect(resistor(page)).toHaveAccessibleDescription(/The end of "1k2x", "kx", is not a unit/);
	await expect(volts(page)).toHaveAccessibleDescription(/“Volts across it” is −87 V\. This sum holds from/);
	await expect(result(page)).toContainText('Waits until this can be read');
	await expect(result(page)).not.toContainText('Overloaded');
	await expect(page.getByText('The address also names “colour”')).toBeVisible();
	expect(complaints).toEqual([]);
});

test('a word that a choice does not know is told, with the words it knows', async ({ page }) => {
	await page.goto('./sums/supply-ripple/#rectifier=bridge&f_mains=50&C_uF=32&I_dc_A=0.05');
	await expect(page.getByRole('status').filter({ hasText: '"bridge"' })).toContainText(/half.*full/);
});

test('an address that is changed by hand gives the sum anew', async ({ page }) => {
	await page.goto('./sums/resistor-drop/#R_ohm=1k5&V=65');
	await expect(result(page)).toContainText(/43\.3.mA/);
	await page.evaluate(() => (location.hash = '#R_ohm=1k5&V=6.5'));
	await expect(result(page)).toContainText(/4\.33.mA/);
});

test('the drawer is filled once and used again on another day, without a network too', async ({
	page,
	context
}) => {
	const address = './sums/replacement-value/#C_wanted_uF=50n&by=a-capacitor-from-my-drawer';
	await page.goto(address);
	const drawer = page.getByRole('group', { name: 'Capacitors in the drawer' });
	await drawer.getByRole('textbox').fill('22n; 47n; 0.1');
	await drawer.getByRole('button', { name: 'Put in' }).click();
	await expect(drawer).toContainText('3 values kept in this browser');
	await drawer.getByRole('button', { name: 'Take out 100 nF' }).click();
	await expect(drawer).toContainText('2 values kept in this browser');
	await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	await context.setOffline(true);
	const later = await context.newPage();
	await later.goto(address);
	const again = later.getByRole('group', { name: 'Capacitors in the drawer' });
	await expect(again.getByRole('listitem')).toHaveText([/22 nF/, /47 nF/]);
	await expect(result(later)).not.toContainText('Still wanted');
	await later.getByRole('link', { name: 'All sums' }).click();
	await later.getByRole('searchbox').fill('burnt resister');
	await later.getByRole('list', { name: 'Sums found' }).getByRole('link').first().click();
	await expect(later.getByRole('heading', { level: 1 })).toContainText('Is this resistor overloaded');
	await resistor(later).fill('1k5');
	await volts(later).fill('65');
	await expect(result(later)).toContainText(/43\.3.mA/);
});

test('a sum is found, typed in and read by the keyboard alone', async ({ page, isMobile }) => {
	test.skip(isMobile, 'There is no keyboard.');
	await page.goto('./sums/');
	await page.getByRole('searchbox').focus();
	await page.keyboard.type('burnt resistor');
	await expect(page.getByRole('status').filter({ hasText: 'the likeliest first' })).toBeVisible();
	await page.keyboard.press('Tab');
	await expect(page.getByRole('link', { name: /^Is this resistor overloaded/ })).toBeFocused();
	await page.keyboard.press('Enter');
	await expect(page.getByRole('heading', { level: 1 })).toContainText('Is this resistor overloaded');
	const tabTo = async (wanted: Locator) => {
		for (let i = 0; i < 30 && !(await wanted.evaluate((one) => one === document.activeElement)); i++)
			await page.keyboard.press('Tab');
		await expect(wanted).toBeFocused();
	};
	await tabTo(page.getByRole('radio', { name: 'Volts across the part' }));
	await page.keyboard.press('ArrowDown');
	await expect(page.getByRole('radio', { name: 'Volts at its two ends' })).toBeChecked();
	await page.keyboard.press('ArrowUp');
	await tabTo(resistor(page));
	await page.keyboard.type('1k2');
	await page.keyboard.press('Enter');
	await expect(volts(page)).toBeFocused();
	await page.keyboard.type('87');
	await page.keyboard.press('Enter');
	await page.keyboard.type('4');
	await expect(result(page)).toHaveText(/^\s*Overloaded.*158.%/s);
});

test('each code on a part is drawn, and its colours stand there in words', async ({ page }) => {
	const codes: [string, RegExp][] = [
		['colours=yellow,violet,orange,silver', /^Resistor with bands yellow: 4, violet: 7, orange: × 1,000/],
		['body=green&end=grey&dot=red&fourth=gold', /^Resistor: body green: 5, end grey: 8, dot red/],
		['mica_dots=red,green,brown,gold,silver', /^Mica capacitor with dots red: 2, green: 5/],
		['mica_dots=white,green,brown,red,green,brown', /^Mica capacitor with dots white/],
		['code=2A474J', /^capacitor marked 2A474J/],
		['code=4K7', /^resistor marked 4K7/],
		['transformer_lead=red/yellow', /^Lead, red with yellow: /],
		['if_or_output_lead=green', /^Lead, green: /],
		['R_ohm=47k&tolerance=10+%25', /^Resistor with bands yellow/]
	];
	for (const [fragment, name] of codes) {
		await page.goto('about:blank');
		await page.goto(`./sums/part-codes/#${fragment}`);
		await expect(page.getByRole('img', { name })).toBeVisible();
	}
});

const PICTURED = {
	'lamp against the set': 'lamp-limiter/#W_lamp=60&V_mains=230&V_set=80&W_set_normal=45',
	reforming: 'reform-progress/#limit_mA=1&V_applied=350&V_working=350&series_min_mA=10|8;20|4;40|2',
	'ripple along the filter':
		'supply-ripple/#rectifier=full&f_mains=50&I_dc_A=0.05&C_uF=32&V_peak=300&sections=1000||32;2200||8',
	'tracking error':
		'tracking/#method=three-point&L_signal_uH=180&T_signal_pF=35&IF_kHz=455&f_kHz=600;1000;1400',
	'response of the IF': 'if-transformer/#f0_kHz=455&Q=100&kQ=1&detuned=secondary&by_kHz=5',
	'volts, currents and watts of a chain':
		'supply-chain/#V_supply=300&sections=1000|40;4700|5;22000|1;47000|0.5;100000|0.2;220000|0.1',
	'AVC against signal': 'avc/#V_signal_uV=1000&gain=33000&stages=2&V_per_halving=5.5&efficiency=1'
};

test('pictures have a name, axes with their unit, a table, and no word is small, cut off or on another', async ({
	page
}) => {
	await page.setViewportSize({ width: 360, height: 740 });
	for (const [name, address] of Object.entries(PICTURED)) {
		await page.goto('about:blank');
		await page.goto(`./sums/${address}`);
		const figures = page.getByRole('figure');
		await expect(figures.first().getByRole('img', { name: /, .* against / }), name).toBeVisible();
		await expect(figures.first().getByRole('table'), name).toBeVisible();
		const wrong = await figures.locator('svg').evaluateAll((all) =>
			all.flatMap((svg) => {
				const frame = svg.getBoundingClientRect();
				const words = [...svg.querySelectorAll('text')]
					.filter((text) => text.textContent)
					.map((text) => ({ text, box: text.getBoundingClientRect() }));
				const out = words.flatMap(({ text, box }) => {
					const small = parseFloat(getComputedStyle(text).fontSize) < 11;
					const cut = box.left < frame.left - 1 || box.right > frame.right + 1;
					return small || cut ? [`${small ? 'small' : 'cut off'}: ${text.textContent}`] : [];
				});
				const over = words.flatMap(({ text, box: a }, i) =>
					words.slice(i + 1).flatMap(({ text: other, box: b }) => {
						const [across, upright] = [
							Math.min(a.right, b.right) - Math.max(a.left, b.left),
							Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top)
						];
						return across > 2 && upright > 6 ? [`${text.textContent} on ${other.textContent}`] : [];
					})
				);
				return [...out, ...over];
			})
		);
		expect(wrong, name).toEqual([]);
	}
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
			'./sums/supply-ripple/#rectifier=bridge&f_mains=50',
			'./sums/supply-chain/#V_supply=270&sections=1200|30|||180|4;10000|2|||160',
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
		'./sums/supply-chain/#V_supply=270&sections=1200|30|||180|4;10000|2|||160',
		'./sums/part-codes/#mica_dots=white,green,brown,red,green,brown',
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
