import { describe, expect, test } from 'vitest';
import type { Finding } from '../../../src/lib/flow/finding.ts';
import { expectedIn, loadSample, sampleNames, type ExpectedFinding } from './sample.ts';

const findingsOf = (name?: string): Finding[] => {
	const result = loadSample(name);
	return result.ok ? result.advice : result.findings;
};

/** The place and the code exactly; of the sentences, the part that the sample names. */
const asExpected = ({ message, remedy, ...rest }: ExpectedFinding) => ({
	...rest,
	message: expect.stringContaining(message) as string,
	remedy: expect.stringContaining(remedy) as string
});

describe.each(sampleNames())('sample %s', (name) => {
	test('its findings stand where the author has to look, and no others', () => {
		const found = findingsOf(name).map(({ file, code, line, column, message, remedy }) => ({
			file,
			code,
			line,
			column,
			message,
			remedy
		}));
		expect(found).toEqual(expectedIn(name).map(asExpected));
	});
});
