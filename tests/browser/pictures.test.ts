import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';
import type { EventData } from '../../src/lib/job/events.ts';
import type { KeptPicture } from '../../src/lib/job/picture.ts';
import { expect, test } from './bench.ts';
import { answer, events, heading, startJob, stepPane, unfold } from './job-steps.ts';
import { jpeg, JPEG, withPlace } from './picture-files.ts';

const stepPictures = (page: Page) => page.getByRole('region', { name: 'Pictures of this step' });
const opened = (page: Page) => page.getByRole('dialog');

const give = (page: Page, buffer: Buffer, name = 'bench.jpg', mimeType = JPEG) =>
	page.getByLabel('Picture this step, file').setInputFiles({ name, mimeType, buffer });

/** The pictures as they lie on disk. */
const onDisk = (page: Page): Promise<{ hash: string; type: string; bytes: number[] }[]> =>
	page.evaluate(async () => {
		const open = indexedDB.open('valvetrail');
		await new Promise((done) => (open.onsuccess = done));
		const asked = open.result.transaction('pictures').objectStore('pictures').getAll();
		await new Promise((done) => (asked.onsuccess = done));
		open.result.close();
		return (asked.result as KeptPicture[]).map(({ hash, type, bytes }) => ({
			hash,
			type,
			bytes: [...new Uint8Array(bytes)]
		}));
	});

const pictured = async (page: Page) =>
	(await events(page)).flatMap((event) => (event.kind === 'pictured' ? [event.data] : []));

/** Every picture that is shown has been read to its end. */
const allShown = (page: Page) =>
	expect
		.poll(() =>
			page
				.locator('img')
				.evaluateAll((list) =>
					list.every((image) => image instanceof HTMLImageElement && image.naturalWidth > 0)
				)
		)
		.toBe(true);

test('a picture of a step is kept small and without its place, offline too, and stands there again', async ({
	page,
	context,
	complaints
}) => {
	await page.goto('./');
	await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated');
	await startJob(page, { playing: true });
	const step = (await heading(page).textContent()) ?? '';
	const camera = withPlace(await jpeg(page, 4000, 3000));
	expect(camera.includes('Exif')).toBe(true);
	await context.setOffline(true);
	await give(page, camera);
	await expect(stepPictures(page).getByRole('status')).toHaveText('Picture kept.');
	await allShown(page);

	const [event] = (await pictured(page)) as [EventData['pictured']];
	const [kept] = await onDisk(page);
	expect(event).toMatchObject({ width: 1600, height: 1200, bytes: kept!.bytes.length, picture: kept!.hash });
	expect(kept!.type).toBe('image/webp');
	expect(kept!.bytes.length).toBeLessThan(450_000);
	const text = Buffer.from(kept!.bytes).toString('latin1');
	expect(text).not.toMatch(/Exif|EXIF|XMP|GPS/);

	await answer(page);
	await expect(stepPictures(page).getByRole('listitem')).toHaveCount(0);
	await unfold(page, 'Trail');
	await expect(page.getByRole('complementary', { name: 'Trail' })).toContainText(`Picture: ${step}`);
	await page.reload();
	await expect(heading(page)).toBeVisible();
	await unfold(page, 'Trail');
	await allShown(page);
	await page.getByRole('link', { name: 'Report for print' }).click();
	await expect(page.getByRole('figure')).toContainText(step);
	await allShown(page);
	expect(complaints).toEqual([]);
});

test('a picture opens large, gets a caption, and is taken back; its entry stays in the log', async ({
	page
}) => {
	await startJob(page, { playing: true });
	await give(page, await jpeg(page, 800, 600));
	await stepPictures(page).getByRole('listitem').getByRole('button').click();
	await expect(opened(page)).toBeVisible();
	await opened(page).getByLabel('Caption').fill('Burnt at the lower end');
	await opened(page).getByRole('button', { name: 'Keep the caption' }).click();
	await expect(stepPictures(page)).toContainText('Burnt at the lower end');
	await expect(stepPictures(page).getByRole('listitem')).toHaveCount(1);
	await stepPictures(page).getByRole('listitem').getByRole('button').click();
	expect((await new AxeBuilder({ page }).include('dialog').analyze()).violations).toEqual([]);
	await opened(page).getByRole('button', { name: 'Take this picture back' }).click();
	await expect(stepPictures(page).getByRole('listitem')).toHaveCount(0);
	expect(await pictured(page)).toHaveLength(2);
});

test('what is no picture is refused with its cure, and nothing is written', async ({ page }) => {
	await startJob(page, { playing: true });
	const before = (await events(page)).length;
	await give(
		page,
		Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>'),
		'x.svg',
		'image/svg+xml'
	);
	await expect(stepPictures(page).getByRole('alert')).toContainText('cannot read the file as a picture');
	await give(page, (await jpeg(page, 900, 900)).subarray(0, 60));
	await expect(stepPictures(page).getByRole('alert')).toContainText('choose a JPEG, PNG or WebP');
	expect(await events(page)).toHaveLength(before);
	expect(await onDisk(page)).toEqual([]);
	await expect(stepPane(page).getByRole('heading', { level: 1 })).toBeVisible();
});

test('a browser that cannot write WebP keeps a JPEG, without its place too', async ({ page }) => {
	await page.addInitScript(() => {
		const write = HTMLCanvasElement.prototype.toBlob;
		HTMLCanvasElement.prototype.toBlob = function (done, type, quality) {
			write.call(this, done, type === 'image/webp' ? 'image/png' : type, quality);
		};
	});
	await startJob(page, { playing: true });
	await give(page, withPlace(await jpeg(page, 2000, 1000)));
	await expect(stepPictures(page).getByRole('status')).toHaveText('Picture kept.');
	await allShown(page);
	const [kept] = await onDisk(page);
	expect(kept!.type).toBe('image/jpeg');
	expect(Buffer.from(kept!.bytes).toString('latin1')).not.toMatch(/Exif|GPS/);
});

test('a deleted job takes its pictures with it', async ({ page }) => {
	await startJob(page, { playing: true });
	await give(page, await jpeg(page, 640, 480));
	await expect(stepPictures(page).getByRole('listitem')).toHaveCount(1);
	expect(await onDisk(page)).toHaveLength(1);
	await page.goto('./');
	await page.getByRole('button', { name: /^Delete AM/ }).click();
	await page.getByRole('button', { name: 'Delete it' }).click();
	await expect(page.getByRole('region', { name: 'Jobs' }).getByRole('listitem')).toHaveCount(0);
	expect(await onDisk(page)).toEqual([]);
});
