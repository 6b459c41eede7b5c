import { delimiter, join } from 'node:path';
import { expect, test } from 'vitest';
import { findBrowser, type Surroundings } from '../../../src/tools/browser.ts';

const around = (there: string[], env: Surroundings['env'] = {}): Surroundings => ({
	env: { PATH: ['first', 'second'].join(delimiter), ...env },
	runs: (file) => there.includes(file),
	playwright: () => 'playwright-chromium'
});

test('CHROMIUM_PATH comes before anything on the PATH', () => {
	const found = findBrowser(around(['mine', join('first', 'chromium')], { CHROMIUM_PATH: 'mine' }));
	expect(found).toEqual({ ok: true, path: 'mine' });
});

test('a CHROMIUM_PATH that cannot be run is named, and nothing else is taken', () => {
	const found = findBrowser(around([join('first', 'chromium')], { CHROMIUM_PATH: 'gone' }));
	expect(found).toMatchObject({ ok: false, hint: expect.stringContaining('gone') as string });
});

test('Chromium anywhere on the PATH comes before Chrome', () => {
	const found = findBrowser(around([join('first', 'google-chrome'), join('second', 'chromium')]));
	expect(found).toEqual({ ok: true, path: join('second', 'chromium') });
});

test("Playwright's own browser is the last that is looked for", () => {
	expect(findBrowser(around(['playwright-chromium']))).toEqual({ ok: true, path: 'playwright-chromium' });
});

test('where there is none, none is made up', () => {
	expect(findBrowser(around([]))).toBeUndefined();
});
