import type { Locator, Page } from '@playwright/test';
import {
	type Calculation,
	calculations,
	type Check,
	GROUPS,
	type Input,
	runOn,
	verdictTitle
} from '../../src/lib/calculations/index.ts';
import { capital } from '../../src/lib/ui/capital.ts';
import { fieldsOf, likelyWay, symbolOf, textsFrom } from '../../src/lib/ui/sums/fields.ts';
import { largeFirst, resultsOf } from '../../src/lib/ui/sums/figures.ts';
import { rowsOfText } from '../../src/lib/ui/sums/rows-text.ts';
import { typedOf } from '../../src/lib/ui/sums/typed.ts';
import { expect, test } from './bench.ts';

const all = Object.values<Calculation>(calculations);
const result = (page: Page) => page.getByRole('region', { name: 'Result', exact: true });
const plainly = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
/** The field of an input: its label, and behind it the symbol of the formulas, where they have one. */
function labelled(sum: Calculation, { key, label }: Input): RegExp {
	const [letter = '', ...below] = (symbolOf(sum, key) ?? '').split('_');
	return new RegExp(`^${plainly(capital(label))}(\\s${letter}\\s?${below.join(' ')})?$`);
}

async function chooseWay(page: Page, { ways = [] }: Calculation, way: number): Promise<void> {
	const title = capital(ways[way]?.title ?? '');
	const radio = page.getByRole('radio', { name: title, exact: true });
	if (await radio.isVisible()) await radio.check();
	else if (ways.length > 0) await page.getByLabel('What do you know?').selectOption({ label: title });
}

async function fillRows(table: Locator, text: string, columns: number): Promise<void> {
	for (const [row, cells] of rowsOfText(text).entries())
		for (const [column, cell] of cells.entries())
			await table
				.getByRole('textbox')
				.nth(row * columns + column)
				.fill(cell);
}

/** Puts a text into the field of an input as a hand would. */
async function typeInto(page: Page, sum: Calculation, input: Input, text: string): Promise<void> {
	const form = page.getByRole('form');
	const group = form.getByRole('group', { name: capital(input.label), exact: true });
	switch (input.kind) {
		case 'numbers':
			if (input.kept) {
				await group.getByRole('textbox').fill(text);
				return group.getByRole('button', { name: 'Put in' }).click();
			}
			return form.getByRole('textbox', { name: labelled(sum, input) }).fill(text);
		case 'rows':
			return fillRows(group, text, Object.keys(input.columns).length);
		case 'choice':
			return group.getByRole('radio', { name: text, exact: true }).check();
		case 'list':
			for (const [place, word] of text.split(',').entries())
				if (input.places && word) await group.getByRole('combobox').nth(place).selectOption(word);
				else if (word) await group.getByRole('checkbox', { name: word, exact: true }).check();
			return;
		default:
			return form.getByRole('textbox', { name: labelled(sum, input) }).fill(text);
	}
}

/** The row of a sum that shows most of its page: with a verdict, where it has any. */
const rowOf = ({ checks }: Calculation): Check =>
	checks.find(({ verdict }) => verdict !== undefined) ?? checks[0]!;

async function typeRow(page: Page, sum: Calculation, { given }: Check): Promise<void> {
	await page.goto(`./sums/${sum.id}/`);
	const texts = textsFrom(sum, typedOf(sum, given));
	const way = likelyWay(sum, texts);
	await chooseWay(page, sum, way);
	for (const { input } of fieldsOf(sum, way)) {
		const text = texts[input.key] ?? '';
		if (text !== '') await typeInto(page, sum, input, text);
	}
}

/** What the page has to say of a row: the verdict, then the large figures. */
function expectedOf(sum: Calculation, { given }: Check): string[] {
	const ran = runOn(sum, given);
	if (!ran.ok) throw new Error(`${sum.id}: ${ran.problems[0]?.message}`);
	const counts = Object.values(sum.inputs).map(({ kind, key }) =>
		kind === 'number' && Array.isArray(given[key]) ? (given[key] as unknown[]).length : 1
	);
	const { large } = largeFirst(resultsOf(sum, ran, Math.max(...counts)).figures);
	return [...(ran.verdict ? [verdictTitle(sum, ran.verdict)] : []), ...large.map(({ number }) => number)];
}

test.use({ actionTimeout: 20_000 });
test.skip(({ isMobile }) => isMobile, 'The form of a phone is the same one.');

for (const group of GROUPS)
	test(`${group}: each sum is typed in by hand, tells its verdict and figures at once, and its address brings them back`, async ({
		page,
		context,
		complaints
	}) => {
		test.slow();
		for (const sum of all.filter((one) => one.group === group)) {
			const check = rowOf(sum);
			await typeRow(page, sum, check);
			const told = expectedOf(sum, check);
			for (const words of told) await expect(result(page), sum.id).toContainText(words);
			const inOrder = new RegExp(told.map(plainly).join('.*'), 's');
			await expect(result(page), `${sum.id}, the verdict first`).toHaveText(inOrder);
			await expect(page, sum.id).toHaveURL(/#.+=/);
			// The address follows when the typing rests: read once it is the same twice.
			await page.waitForTimeout(300);
			const sent = await context.newPage();
			await sent.goto(page.url());
			await expect(result(sent), `${sum.id} from its address`).toHaveText(
				(await result(page).textContent()) ?? ''
			);
			await sent.close();
		}
		expect(complaints).toEqual([]);
	});
