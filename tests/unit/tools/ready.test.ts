import { describe, expect, test } from 'vitest';
import { installNeeded, nodeProblem } from '../../../src/tools/ready.mjs';

describe('which Node runs the project', () => {
	test.each(['20.19.0', '20.20.2', '22.0.0', '24.11.1'])('Node %s does', (version) => {
		expect(nodeProblem(version)).toBeUndefined();
	});

	test.each(['18.20.4', '20.18.3'])('Node %s is refused, with the version to install', (version) => {
		expect(nodeProblem(version)).toMatch(new RegExp(`^Node ${version} is too old\\. Install Node 20\\.19`));
	});
});

describe('when the packages are installed', () => {
	test('a fresh clone has none', () => expect(installNeeded(1000, undefined)).toBe(true));
	test('a lockfile newer than the last installation asks for another', () =>
		expect(installNeeded(2000, 1000)).toBe(true));
	test('an installation newer than the lockfile stands', () => expect(installNeeded(1000, 2000)).toBe(false));
});
