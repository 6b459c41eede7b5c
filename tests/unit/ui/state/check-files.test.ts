import { expect, test } from 'vitest';
import { checkFiles, type CheckedFiles, type Checker } from '../../../../src/lib/ui/state/check-files.ts';
import { sampleLibrary } from '../../flow/small.ts';

/** A worker that answers as it is told, or never. */
function worker(answer: (checker: Checker) => void) {
	const checker: Checker & { ended: boolean } = {
		ended: false,
		onmessage: null,
		onerror: null,
		postMessage: () => answer(checker),
		terminate: () => void (checker.ended = true)
	};
	return checker;
}

const asked = { library: sampleLibrary(), files: [{ path: 'flows/mine.yaml', text: 'id: mine' }] };

test('what the worker finds is handed on, and the worker is ended', async () => {
	const found: CheckedFiles = { ok: true, library: asked.library, findings: [] };
	const checker = worker(({ onmessage }) => onmessage?.({ data: found } as MessageEvent<CheckedFiles>));
	expect(await checkFiles(() => checker, asked)).toBe(found);
	expect(checker.ended).toBe(true);
});

test('a file that takes for ever is refused, and its worker is ended', async () => {
	const checker = worker(() => {});
	const found = await checkFiles(() => checker, asked, 5);
	expect(found).toMatchObject({ ok: false, findings: [{ code: 'too-slow', file: 'flows/mine.yaml' }] });
	expect(checker.ended).toBe(true);
});

test('a file that breaks the worker is refused, not the page', async () => {
	const checker = worker(({ onerror }) => onerror?.({} as ErrorEvent));
	expect(await checkFiles(() => checker, asked)).toMatchObject({
		ok: false,
		findings: [{ code: 'not-read' }]
	});
	expect(checker.ended).toBe(true);
});
