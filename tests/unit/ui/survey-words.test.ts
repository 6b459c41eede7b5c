import { expect, test } from 'vitest';
import { unbroken } from '../../../src/lib/ui/survey/words.ts';

test('no line ends between a figure and its unit, and words stay as they are', () => {
	expect(unbroken('28 V over 1 kΩ; limit 90 mA (the EZ80)')).toBe(
		'28\u00a0V over 1\u00a0kΩ; limit 90\u00a0mA (the EZ80)'
	);
	expect(unbroken('0 V where 2 Valves stand')).toBe('0\u00a0V where 2 Valves stand');
});
