import { expect, test } from 'vitest';
import { withServiceVolts } from '../../../src/lib/job/service-volts.ts';
import { intake } from './log.ts';

test('volts printed on the sheet stand beside those known, and can be taken out again', () => {
	const one = withServiceVolts(intake({ service: { 'ht.smoothed': 240 } }), 'output.anode', 225);
	expect(one.service).toEqual({ 'ht.smoothed': 240, 'output.anode': 225 });
	const without = withServiceVolts(one, 'ht.smoothed', undefined);
	expect(without.service).toEqual({ 'output.anode': 225 });
	expect('service' in withServiceVolts(without, 'output.anode', undefined)).toBe(false);
});
