import { test } from 'vitest';
import { dexie, value } from './stores.ts';
import { opened, snapshot } from './log.ts';
test.each([1,2,3])('x', async () => {
	const kept = await snapshot();
	const store = await dexie();
	const file = { format: 'valvetrail-job' as const, version: 1 as const, exported: '', events: opened(kept).events, flows: { [kept.hash]: kept.library } };
	value(await store.importJob(file));
	console.log('one');
	try { value(await store.importJob(file)); console.log('two'); } catch (e) { console.log(e, (e as {inner: unknown}).inner); }
});
