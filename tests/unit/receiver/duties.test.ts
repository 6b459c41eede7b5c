import { expect, test } from 'vitest';
import { dutiesOf, type Plan } from '../../../src/lib/receiver/index.ts';
import { shippedLibrary } from '../../library.ts';

const plan = shippedLibrary().plans['am-fm-shared'] as Plan;

test('a triode-heptode that mixes on AM and amplifies on FM has a duty for each', () => {
	const duties = dutiesOf(plan, 'mixer');
	expect(duties.map(({ bands }) => bands)).toEqual([['AM'], ['FM']]);
	expect(duties[0]?.stages).toHaveLength(2);
});

test('an output valve does the same on all bands, and the tuner rests on AM', () => {
	expect(dutiesOf(plan, 'output')).toEqual([{ bands: ['AM', 'FM', 'Gram input'], stages: ['Output valve'] }]);
	expect(dutiesOf(plan, 'tuner').flatMap(({ bands }) => bands)).toEqual(['FM']);
});
