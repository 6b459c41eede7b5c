import { expect, test } from './bench.ts';

test('installing is offered where the browser offers it, and only once', async ({ page, complaints }) => {
	await page.goto('./');
	await expect(page.getByText(/The browser has (not )?promised/)).toBeVisible();
	const button = page.getByRole('button', { name: 'Install on this device' });
	await expect(button).toHaveCount(0);
	await page.evaluate(() => {
		const offer = Object.assign(new Event('beforeinstallprompt', { cancelable: true }), {
			prompt: () => Promise.resolve(document.body.setAttribute('data-asked', String(offer.defaultPrevented)))
		});
		dispatchEvent(offer);
	});
	await button.click();
	await expect(page.locator('body')).toHaveAttribute('data-asked', 'true');
	await expect(button).toHaveCount(0);
	expect(complaints).toEqual([]);
});

for (const [answer, words] of [
	[true, 'The browser has promised to keep the jobs.'],
	[false, 'The browser has not promised to keep the jobs']
] as const) {
	test(`a browser that answers ${answer} is quoted on the first page`, async ({ page }) => {
		await page.addInitScript((said) => {
			navigator.storage.persisted = () => Promise.resolve(said);
		}, answer);
		await page.goto('./');
		await expect(page.getByRole('region', { name: 'On this device' })).toContainText(words);
	});
}

test('over plain http, where nothing is promised, the first page says so', async ({ page, complaints }) => {
	await page.addInitScript(() => Object.defineProperty(navigator, 'storage', { value: undefined }));
	await page.goto('./');
	await expect(page.getByText('Over plain http the browser promises nothing')).toBeVisible();
	expect(complaints).toEqual([]);
});

test('the manifest names icons that are there, in the sizes that it says', async ({ page, request }) => {
	await page.goto('./');
	const address = await page.locator('link[rel=manifest]').evaluate((link: HTMLLinkElement) => link.href);
	const manifest = (await (await request.get(address)).json()) as {
		icons: { src: string; sizes: string; type: string; purpose: string }[];
	};
	expect(manifest.icons.map(({ sizes }) => sizes)).toEqual(expect.arrayContaining(['192x192', '512x512']));
	expect(manifest.icons.map(({ purpose }) => purpose)).toEqual(expect.arrayContaining(['any', 'maskable']));
	for (const { src, sizes, type } of manifest.icons) {
		const icon = await request.get(new URL(src, address).href);
		expect(icon.headers()['content-type'], src).toBe(type);
		if (type !== 'image/png') continue;
		const bytes = await icon.body();
		// Width and height stand in the first chunk of a PNG.
		expect(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`, src).toBe(sizes);
	}
});
