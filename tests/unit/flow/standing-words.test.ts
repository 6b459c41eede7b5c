import { describe, expect, test } from 'vitest';
import { beginsWith, wouldChange } from '../../../src/lib/flow/standing-words.ts';
import { inTheWay, settlersOf } from '../../../src/lib/flow/settle.ts';
import { NOT_LISTED, trace } from '../../../src/lib/flow/trace.ts';
import { resolveFlow } from '../../../src/lib/flow/resolve.ts';
import { tiny, tinyWith } from '../job/tiny.ts';

const faint = resolveFlow(tiny, tiny.flows['am-faint']!, tiny.plans['tiny']!);

describe('where a standing comes from', () => {
	const start = trace(faint, { answers: [], mended: [] });

	test('the flow`s own word is told, and that another suspect is not named by it', () => {
		expect(beginsWith(start, 'aerial-open')).toEqual(['With this complaint the flow calls it common.']);
		expect(beginsWith(start, 'ht-low')[0]).toContain('The flow does not name it.');
		expect(beginsWith(start, NOT_LISTED)[0]).toContain('nobody has thought of everything');
	});

	test('a part that was tested on the way says so', () => {
		const tested = trace(faint, {
			answers: [],
			mended: [],
			ledger: [{ suspect: 'aerial-open', state: 'good' }]
		});
		expect(beginsWith(tested, 'aerial-open')).toContain('It was tested good.');
	});

	test('the step that would move it most is named with its minutes, until it is answered', () => {
		expect(wouldChange(start, 'cc-leak', {})).toBe('Listen to AM, 2 min.');
		const answers = [{ step: 'hear-am', outcome: 'distorted' }];
		expect(wouldChange(trace(faint, { answers, mended: [] }), 'cc-leak', {})).not.toContain('Listen to AM');
	});
});

test('with nothing on the bench the step that would settle a leaky coupling capacitor says that it wants a meter', () => {
	const bare = tinyWith((library) => {
		library.steps['grid-volts']!.ways = [{ needs: ['meter-10M'], trust: 'full' }];
	});
	const resolved = resolveFlow(bare, bare.flows['am-faint']!, bare.plans['tiny']!);
	const start = trace(resolved, { answers: [], mended: [], instruments: [] });
	const settlers = settlersOf(start, 'cc-leak', { answered: new Set(), instruments: [] });
	const grid = settlers.find(({ step }) => step === 'grid-volts');
	expect(grid).toMatchObject({ lacks: ['meter-10M'] });
	expect(inTheWay(grid!)).toBe('wants multimeter of 10 Mohm or more on volts, which is not on this bench');
	expect(settlers.filter(({ lacks }) => lacks.length === 0).map(({ step }) => step)).toContain('hear-am');
});
