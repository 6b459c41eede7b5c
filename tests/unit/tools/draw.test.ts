import { describe, expect, test } from 'vitest';
import { draw, readDraw } from '../../../src/tools/draw.ts';
import { sampleLibrary } from '../flow/small.ts';

async function run(...words: string[]) {
	const said = { out: '', err: '' };
	const io = {
		out: (text: string) => void (said.out += text),
		err: (text: string) => void (said.err += text)
	};
	const question = readDraw(words);
	return question && { code: await draw(sampleLibrary(), question, io), ...said };
}

describe('the command that draws a flow', () => {
	test('the picture goes out and its outline with the figures beside it', async () => {
		const ran = await run('distorted');
		expect(ran?.code).toBe(0);
		expect(ran?.out).toMatch(/^<svg [\s\S]*<\/svg>\s*$/);
		expect(ran?.err).toMatch(/^Distorted on all bands: A set for these tests\n\n1\. /);
		expect(ran?.err).toMatch(/\d+ suspects; \d+\.\d bits open at the start/);
	});

	test('the outline is had alone, on the plan that is named', async () => {
		const ran = await run('distorted', '--outline', '--plan', 'small-set');
		expect(ran?.out).toMatch(/^Distorted on all bands/);
		expect(ran?.err).toBe('');
	});

	test('a flow or a plan that is not there is answered with those that are', async () => {
		expect(await run('no-such-flow')).toMatchObject({
			code: 2,
			err: expect.stringContaining('Known: distorted')
		});
		expect(await run('distorted', '--plan', 'x')).toMatchObject({
			code: 2,
			err: expect.stringContaining('It fits: small-set')
		});
	});

	test.each([[[]], [['--outline']], [['distorted', '--plan']], [['distorted', 'x', 'y']]])(
		'%j is no question',
		(words) => expect(readDraw(words)).toBeUndefined()
	);
});
