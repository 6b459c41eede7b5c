import { emptyLibrary, type Library } from '../../../src/lib/flow/library.ts';
import { Caution, Flow, Source, Step, Suspect } from '../../../src/lib/flow/schema.ts';
import { Plan } from '../../../src/lib/receiver/plan.ts';

/** A library of two flows on one plan, invented for these tests: just enough to go through everything a job can do. */

const source = 'from memory';

const plan = Plan.parse({
	id: 'tiny',
	title: 'AM/FM set of three stages',
	about: 'For tests.',
	source,
	traits: { chassis: 'isolated', heaters: 'parallel' },
	bands: { am: { title: 'AM' }, fm: { title: 'FM' } },
	valves: { output: { type: 'EL84', title: 'Output pentode' } },
	stages: {
		'am-front': { section: 'front-end', title: 'AM aerial circuit', parts: ['winding'] },
		'fm-front': { section: 'fm-tuner', title: 'FM tuner', parts: ['valve', 'socket'] },
		output: { section: 'output', title: 'Output stage', valve: 'output', parts: ['valve', 'socket'] }
	},
	lines: {
		supply: { kind: 'supply', section: 'power-supply', title: 'HT supply', feeds: ['fm-front', 'output'] }
	},
	points: {
		'output.grid': { title: 'Grid of the output valve', stage: 'output' },
		'output.anode': {
			title: 'Anode of the output valve',
			stage: 'output',
			volts: { expect: 250, basis: 'typical', source: 'BOOK' }
		}
	},
	paths: { am: ['am-front', 'output.grid', 'output'], fm: ['fm-front', 'output.grid', 'output'] }
});

const suspect = (part: string, failure: string, at: unknown, more: object = {}) =>
	Suspect.parse({
		part,
		failure,
		at,
		common: 'common',
		shows: { weak: 'usually' },
		repair: { do: `Change the ${part}.`, minutes: 15 },
		proof: 'Measure it when it is out.',
		source,
		...more
	});

const suspects = {
	'cc-leak': suspect('coupling capacitor', 'leaky', 'output', {
		shows: { distorted: 'usually' },
		cautions: ['charged']
	}),
	'aerial-open': suspect('aerial coil', 'open', 'am-front', { bands: ['am'] }),
	'tuner-worn': suspect('tuner valve', 'worn', 'fm-front', { bands: ['fm'] }),
	'ht-low': suspect('rectifier', 'worn', 'supply', { shows: { weak: 'usually', hum: 'sometimes' } }),
	socket: suspect('socket', 'dirty', { every: 'socket' }, { patchy: true, common: 'occasional' }),
	elsewhere: suspect('transformer', 'open', 'no-such-place')
};

const step = (title: string, more: object) =>
	Step.parse({ title, text: 'Do it.', why: 'It tells.', minutes: 2, source, ...more });

const steps = {
	'hear-am': step('Listen to AM', {
		kind: 'listen',
		band: 'am',
		power: 'live',
		'hands-off': true,
		cautions: ['live-work']
	}),
	'hear-fm': step('Listen to FM', {
		kind: 'listen',
		band: 'fm',
		power: 'live',
		'hands-off': true,
		cautions: ['live-work']
	}),
	'grid-volts': step('Volts on the output grid', {
		kind: 'measure',
		measure: 'DC volts',
		at: 'output.grid',
		power: 'live',
		cautions: ['live-work'],
		outcomes: {
			positive: { label: 'Positive', when: '> 0.5 V', means: 'Something feeds the grid.' },
			zero: { label: 'Zero', when: '<= 0.5 V' }
		},
		normal: 'zero',
		expect: { 'cc-leak': { positive: 'almost always' } }
	}),
	'anode-volts': step('Volts on the output anode', {
		kind: 'measure',
		measure: 'DC volts',
		at: 'output.anode',
		power: 'live',
		cautions: ['live-work'],
		outcomes: {
			low: { label: 'Low', when: '< 80 % of expected' },
			right: { label: 'As expected', when: '80 .. 120 % of expected' },
			high: { label: 'High', when: '> 120 % of expected' }
		},
		normal: 'right',
		expect: { 'ht-low': { low: 'usually' } }
	}),
	'coil-ohms': step('Ohms of the aerial coil', {
		kind: 'measure',
		measure: 'ohms',
		at: 'output.grid',
		power: 'unplugged',
		outcomes: { open: { label: 'Open', when: '> 1 kohm' }, whole: { label: 'Whole', when: '<= 1 kohm' } },
		normal: 'whole',
		expect: { 'aerial-open': { open: 'always' } },
		source: 'BOOK'
	}),
	'grid-lifted': step('Grid volts with the capacitor lifted', {
		kind: 'observe',
		power: 'live',
		prepare: 'unplugged',
		cautions: ['live-work'],
		outcomes: { gone: { label: 'Gone' }, stays: { label: 'Stays' } },
		normal: 'gone',
		expect: { socket: { stays: 'half the time' } }
	}),
	unused: step('Of no flow', { kind: 'listen', band: 'am', power: 'live' })
};

const flow = (id: string, title: string, more: object) =>
	Flow.parse({
		id,
		title,
		about: 'For tests.',
		uses: ['hear-am', 'grid-volts', 'anode-volts', 'coil-ohms', 'grid-lifted'],
		source,
		...more
	});

const flows = {
	'am-faint': flow('am-faint', 'AM faint, FM plays', {
		symptom: { am: 'weak', fm: 'good' },
		suspects: { 'aerial-open': 'common', 'cc-leak': 'rare' },
		opening: ['hear-am'],
		own: {
			steps: {
				'own-look': step('Look at the aerial', {
					kind: 'observe',
					power: 'unplugged',
					'hands-off': true,
					outcomes: { in: { label: 'Plugged in' }, out: { label: 'Fallen out' } },
					normal: 'in'
				}),
				'own-tap': step('Tap the output valve', {
					kind: 'observe',
					power: 'live',
					provoke: ['tap', 'flex'],
					outcomes: { still: { label: 'Nothing answers' }, answers: { label: 'The fault came' } },
					normal: 'still',
					expect: { socket: { answers: 'usually' } }
				})
			}
		}
	}),
	distorted: flow('distorted', 'Distorted on both bands', {
		symptom: { all: 'distorted' },
		suspects: { 'cc-leak': 'very common', 'ht-low': 'occasional' },
		uses: ['hear-fm', 'grid-volts', 'anode-volts']
	})
};

const caution = (title: string, more: object = {}) =>
	Caution.parse({ title, text: `${title}.`, source, ...more });

export const tiny: Library = JSON.parse(
	JSON.stringify({
		...emptyLibrary(),
		suspects,
		steps,
		flows,
		plans: { tiny: plan },
		cautions: {
			'live-work': caution('One hand in the pocket', { covers: ['live'] }),
			charged: caution('Discharge the capacitor'),
			'live-chassis': caution('The chassis is live', { covers: ['live'], only: { chassis: ['live'] } }),
			unnamed: caution('For other steps')
		},
		sources: {
			BOOK: Source.parse({ title: 'A book', kind: 'book' }),
			OTHER: Source.parse({ title: 'Another book', kind: 'book' })
		}
	})
) as Library;

/** The same library after its authors have been at it. */
export function tinyWith(change: (library: Library) => void): Library {
	const library = structuredClone(tiny);
	change(library);
	return library;
}
