import type { Page } from '@playwright/test';
import type { JobEvent } from '../../src/lib/job/events.ts';
import { expect } from './bench.ts';

/** The moves of a restorer on the job page, by what is written on it. */

export const AM_FM = 'AM/FM set with shared valves';
export const AC_DC = 'AM AC/DC set';
export const WEAK_AM = 'Weak on AM, fine on FM';
export const HOT_OUTPUT = 'Distorted, and the output valve runs hot';

export const stepPane = (page: Page) => page.getByRole('region', { name: 'Step', exact: true });
export const heading = (page: Page) => stepPane(page).getByRole('heading', { level: 1 });
export const power = (page: Page) => page.getByRole('button', { name: /^Power:/ });
export const press = (page: Page, name: string | RegExp) =>
	stepPane(page).getByRole('button', { name }).click();

/** The live steps that are offered beside the proposed one, whichever they are today. */
export const liveInstead = (page: Page) =>
	stepPane(page)
		.locator('section', { has: page.getByRole('heading', { name: 'Instead of this' }) })
		.getByRole('button')
		.filter({ hasText: /min, live/ });

/** Do something that brings another heading to the step column. */
export async function onward(page: Page, deed: () => Promise<void>): Promise<string> {
	const before = (await heading(page).textContent()) ?? '';
	await deed();
	await expect(heading(page)).not.toHaveText(before);
	return (await heading(page).textContent()) ?? '';
}

interface Complaint {
	set?: string;
	/** What is heard on each band. */
	heard?: Record<string, string>;
	flow?: string;
	/** It was running on full mains when it came in. */
	playing?: boolean;
}

/** From the start page to the first step: the set, its bands, the complaint. */
export async function startJob(page: Page, complaint: Complaint = {}): Promise<void> {
	const { set = AM_FM, heard = { AM: 'Weak', FM: 'Good' }, flow = WEAK_AM, playing = false } = complaint;
	await page.goto('./start/');
	await page.getByRole('radio', { name: set }).check();
	for (const [band, word] of Object.entries(heard))
		await page.getByRole('group', { name: band, exact: true }).getByRole('radio', { name: word }).check();
	if (playing) await page.getByRole('checkbox', { name: /running on full mains/ }).check();
	const begin = page.getByRole('button', { name: flow });
	// A complaint that nothing points to is one of a fold.
	const fold = page.getByRole('group', { name: 'Other complaints' }).locator('details', { hasText: flow });
	if (!(await begin.isVisible())) await fold.locator('summary').click();
	await begin.click();
	await expect(page).toHaveURL(/\/job\/?#\w+$/);
	await expect(heading(page)).toBeVisible();
}

/** Type the two readings that prove the set dead. */
export async function typeVolts(page: Page, reservoir: string, smoothed: string): Promise<void> {
	await page.getByLabel('At the reservoir').fill(reservoir);
	await page.getByLabel('After the smoothing').fill(smoothed);
	await press(page, 'Record both readings');
}

/** What each stage of a power gate asks for, by its heading. */
const GATE: Record<string, (page: Page) => Promise<void>> = {
	'Switch off and pull the plug': (page) => press(page, 'Off, and the plug is out'),
	'Discharge, then prove it dead': (page) => typeVolts(page, '0.3', '0'),
	'Connect while the set is dead': (page) => press(page, 'Connected'),
	'Look for the cause first': (page) => press(page, 'Looked: nothing found behind it'),
	'Put it on the limiter': (page) => press(page, 'It is on, through the lamp'),
	'Full mains': (page) => press(page, 'It is on full mains')
};

/** Do what the gate asks, stage by stage, until none is left; answers with the stages that it had. */
export async function passGate(page: Page): Promise<string[]> {
	const stages: string[] = [];
	for (let now = (await heading(page).textContent()) ?? ''; GATE[now];) {
		const stage = now;
		stages.push(stage);
		now = await onward(page, () => GATE[stage]!(page));
	}
	return stages;
}

/** Say what each band does now. */
export async function hear(page: Page, heard: Record<string, string>): Promise<void> {
	for (const [band, word] of Object.entries(heard)) {
		const group = stepPane(page).getByRole('group', { name: band, exact: true });
		const more = group.getByRole('button', { name: 'not good' });
		if (word !== 'Good' && (await more.isVisible())) await more.click();
		await group.getByRole('radio', { name: word }).check();
	}
	await onward(page, () => press(page, 'Record what is heard'));
}

/** From the proof of a part to the question whether it cured. */
export async function changePart(page: Page): Promise<void> {
	await onward(page, () => press(page, 'Repair without proof'));
	await passGate(page);
	await onward(page, () => press(page, 'Changed'));
	await passGate(page);
}

/** Open the step that is proposed, through its gate where there is one. */
export async function openStep(page: Page): Promise<string[]> {
	await heading(page).waitFor();
	const way = stepPane(page).getByRole('button', { name: 'Go to this step' });
	if (await way.isVisible()) {
		await way.click();
		await expect(way).toBeHidden();
	}
	return passGate(page);
}

/** Answer the proposed step: by a word, else as a sound set would. */
export async function answer(page: Page, word: string | RegExp = /as in a sound set/): Promise<string> {
	await openStep(page);
	return onward(page, () => press(page, word));
}

/** The log as it lies on disk, in the order of the bench's numbers. */
export const events = (page: Page): Promise<JobEvent[]> =>
	page.evaluate(async () => {
		const opened = indexedDB.open('valvetrail');
		await new Promise((done) => (opened.onsuccess = done));
		const asked = opened.result.transaction('events').objectStore('events').getAll();
		await new Promise((done) => (asked.onsuccess = done));
		opened.result.close();
		const job = decodeURIComponent(location.hash.slice(1));
		return (asked.result as JobEvent[]).filter((event) => event.job === job).sort((a, b) => a.seq - b.seq);
	});

/** All that lies on disk of the jobs: every entry, flow and picture. */
export const everything = (page: Page) =>
	page.evaluate(async () => {
		const opened = indexedDB.open('valvetrail');
		await new Promise((done) => (opened.onsuccess = done));
		const table = async (name: string): Promise<unknown[]> => {
			const asked = opened.result.transaction(name).objectStore(name).getAll();
			await new Promise((done) => (asked.onsuccess = done));
			return asked.result as unknown[];
		};
		const [events, flows, pictures] = [await table('events'), await table('flows'), await table('pictures')];
		opened.result.close();
		const bytes = (pictures as { bytes: ArrayBuffer }[]).map((picture) => ({
			...picture,
			bytes: [...new Uint8Array(picture.bytes)]
		}));
		return { events: events as JobEvent[], flows, pictures: bytes };
	});

export const kinds = async (page: Page): Promise<string[]> => (await events(page)).map(({ kind }) => kind);

/** Open a fold of the page by its heading. */
export async function unfold(page: Page, name: string): Promise<void> {
	const fold = page.locator('details', { has: page.locator('summary', { hasText: name }) }).first();
	if (!(await fold.evaluate((details: HTMLDetailsElement) => details.open)))
		await fold.locator('summary').first().click();
}

/** Take the step at a test point of the drawing, whatever the program would ask first. */
export async function takePoint(page: Page, point: string): Promise<void> {
	await unfold(page, 'Receiver');
	await onward(page, () => page.getByRole('button', { name: new RegExp(`^Test point: ${point}`) }).click());
	await passGate(page);
}

/** What the page shows of the reasoning: the step, the sections and the suspects with their standings. */
export async function standingOf(page: Page) {
	await unfold(page, 'Suspects');
	await unfold(page, 'Receiver');
	return {
		step: await heading(page).textContent(),
		learnt: await stepPane(page).getByRole('status').first().textContent(),
		receiver: await page.getByRole('complementary', { name: 'Receiver and suspects' }).innerText()
	};
}

/** From the list of suspects, the likeliest one to its proof. */
export async function suspectFirst(page: Page): Promise<void> {
	await unfold(page, 'Suspects');
	const first = page.getByRole('list', { name: 'Suspects', exact: true }).getByRole('listitem').first();
	await first.locator('summary').first().click();
	await first.getByRole('button', { name: 'Prove and change this part' }).click();
	await expect(heading(page)).toHaveText('Prove it before the iron');
}

/** What a set shows whose oscillator feed resistor has gone high. All else is sound. */
const FOUND: [RegExp, RegExp][] = [
	[/^Compare the AM bands/, /Part of the dial only/],
	// Little reaches the mixer, so little reaches detector and AVC.
	[/DC across the detector load/, /^\W*\d?\s*Small/],
	[/AVC line on a strong station/, /^\W*\d?\s*Small/],
	[/Listen for hiss/, /Faint hiss/],
	[/resistors of the oscillator/, /Anode feed high or open/]
];

export const proposal = (page: Page) =>
	stepPane(page).getByRole('button', { name: 'Prove and change this part' });

/** Answer what is asked, as such a set would, until a part is proposed. */
export async function traceOn(page: Page): Promise<string[]> {
	const asked: string[] = [];
	while (asked.length < 20 && !(await proposal(page).isVisible())) {
		const question = (await heading(page).textContent()) ?? '';
		asked.push(question);
		await openStep(page);
		if (/Is the oscillator running/.test(question))
			await onward(page, async () => {
				await page.getByLabel('DC volts').fill('-1.2');
				await expect(stepPane(page).getByText('−1.2 V: Small')).toBeVisible();
				await press(page, 'Record');
			});
		else await answer(page, FOUND.find(([title]) => title.test(question))?.[1]);
	}
	return asked;
}

type Check = (name: string) => Promise<void>;

/** Every page of a job, one after the other: each is handed to the check. */
export async function throughAllPages(page: Page, check: Check): Promise<void> {
	const at = async (name: string) => {
		await expect(page.getByRole('heading', { level: 1 }).first()).toBeVisible();
		await check(name);
	};
	await page.goto('./start/');
	await page.getByRole('radio', { name: AM_FM }).check();
	await unfold(page, 'Its past');
	await at('start');
	await startJob(page, { set: AC_DC, heard: {}, flow: HOT_OUTPUT });
	const url = page.url();
	for (const fold of ['Receiver', 'Suspects', 'Trail']) await unfold(page, fold);
	await at('choosing');
	await press(page, 'Go to this step');
	await expect(heading(page)).toHaveText('Put it on the limiter');
	await at('gate');
	await openStep(page);
	await at('step');
	await answer(page, /Output anode red/);
	await power(page).click();
	await at('power menu');
	await page.getByRole('button', { name: 'Discharge and prove it dead' }).click();
	await onward(page, () => press(page, 'Off, and the plug is out'));
	await press(page, 'Record both readings');
	await at('readings wanted');
	await press(page, 'Not now');
	await suspectFirst(page);
	await at('suspected');
	await page.goto(`${new URL('../report/', url.replace(/#.*/, '')).href}${new URL(url).hash}`);
	await at('report');
	await page.goto('./sums/');
	await at('sums');
	await page.goto('./');
	await expect(page.getByRole('region', { name: 'Jobs' }).getByRole('listitem')).toHaveCount(1);
	await at('home');
}
