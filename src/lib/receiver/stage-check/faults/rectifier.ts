import type { CauseRow, FaultRow } from './types.ts';
import type { Supply } from '../supply-circuit.ts';

type Row = FaultRow<Supply>;
const DROP = { reading: 'smoothing-drop' } as const;
const DIRECT = { reading: 'direct-current' } as const;
const SMOOTHING = { part: 'smoothing' } as const;
const RIPPLE = { reading: 'ripple' } as const;
type Cause = CauseRow;

const OPEN = 1e9;
/** S. */
const SHORT = 0.2;

/** Without a ripple reading these are one: two DC volts tell only that the source is weak. */
const SOURCE_WEAK = {
	family: 'source-weak',
	parted: [{ reading: 'ripple' }, { reading: 'reservoir-lead' }]
} as const;
const PART_SOURCE =
	'Read the AC volts on the reservoir: much ripple speaks for a dry reservoir or half a rectifier, little for a tired rectifier. Unplugged and discharged, a leaky reservoir shows on the capacitor tester.';

const alone = (row: Omit<Row, 'causes' | 'partBy'>, cause: Cause, partBy = ''): Row => ({
	...row,
	causes: [cause],
	partBy
});

const halfDeadRow: Row = alone(
	{
		id: 'rectifier-half-dead',
		...SOURCE_WEAK,
		set: (sound) => ({ ...sound, secondOhms: OPEN }),
		pins: ['secondOhms']
	},
	{
		fault: 'rectifier-half-dead',
		part: 'rectifier valve, one half',
		common: 'rare',
		suspects: ['rect-half'],
		says: () => 'One half of the rectifier does not conduct.'
	},
	PART_SOURCE
);

function sourceRows(ohms: number, reservoir: number, halfWave: boolean): Row[] {
	const halfDead: Row[] = halfWave ? [] : [halfDeadRow];
	return [
		alone(
			{
				id: 'rectifier-worn',
				...SOURCE_WEAK,
				sizes: { from: 1.5 * ohms, to: 20 * ohms },
				set: (sound, size) => ({ ...sound, firstOhms: size, secondOhms: size }),
				pins: ['firstOhms', 'secondOhms'],
				proofs: [RIPPLE, DROP, DIRECT, SMOOTHING]
			},
			{
				fault: 'rectifier-worn',
				part: 'rectifier valve',
				common: 'common',
				suspects: ['rect-weak'],
				value: { unit: 'ohm' },
				says: (value) => `The rectifier is worn${halfWave ? '' : ' in both halves'}: ${value}.`
			},
			PART_SOURCE
		),
		...halfDead,
		alone(
			{
				id: 'reservoir-dry',
				...SOURCE_WEAK,
				sizes: { from: reservoir / 200, to: reservoir / 3 },
				set: (sound, size) => ({ ...sound, reservoir: size }),
				pins: ['reservoir'],
				proofs: [RIPPLE, SMOOTHING, DROP, DIRECT]
			},
			{
				fault: 'reservoir-dry',
				part: 'reservoir capacitor',
				accuses: 'reservoir-capacitor',
				common: 'common',
				suspects: ['res-dry'],
				value: { unit: 'F' },
				says: (value) => `The reservoir capacitor has dried out to ${value}.`
			},
			PART_SOURCE
		),
		alone(
			{
				id: 'reservoir-leak',
				...SOURCE_WEAK,
				sizes: { from: 1e3, to: 100e3 },
				set: (sound, size) => ({ ...sound, reservoirLeak: 1 / size }),
				pins: ['reservoirLeak'],
				proofs: [{ reading: 'reservoir-lead' }]
			},
			{
				fault: 'reservoir-leak',
				part: 'reservoir capacitor',
				common: 'occasional',
				suspects: ['res-short'],
				value: { unit: 'ohm' },
				says: (value) => `The reservoir capacitor leaks: ${value}. It runs hot: unplug the set.`
			},
			PART_SOURCE
		)
	];
}

function windingRows(known: { winding: boolean; halfWave: boolean }, winding: number): Row[] {
	const half = (id: string, set: Row['set']): Row =>
		alone(
			{ id, family: 'winding-half-open', set, pins: ['second'] },
			{
				fault: 'winding-half-open',
				part: 'HT winding, one half',
				common: 'rare',
				suspects: ['tx-half'],
				says: () => 'One half of the HT winding is open.'
			}
		);
	const low = alone(
		{
			id: 'winding-low',
			sizes: { from: 0.55 * winding, to: 0.93 * winding },
			set: (sound, size) => ({ ...sound, winding: size }),
			pins: ['winding']
		},
		{
			fault: 'winding-low',
			part: 'mains transformer or its tap',
			common: 'occasional',
			suspects: ['tap-wrong', 'tx-short'],
			value: { unit: 'V' },
			says: (value) =>
				`The HT winding has come down to ${value}: selector on the wrong tap, low mains, or shorted turns.`
		}
	);
	if (known.halfWave) return known.winding ? [low] : [];
	return [
		half('winding-second-open', (sound) => ({ ...sound, second: 1e-3 })),
		// The halves are named by the leads of the meter: the first may be the open one.
		half('winding-first-open', (sound) => ({ ...sound, winding: 1e-3 * sound.winding, second: 1e3 })),
		...(known.winding ? [low] : [])
	];
}

function smoothingRows(smoothing: number): Row[] {
	const part = 'smoothing resistor or choke';
	return [
		alone(
			{
				id: 'smoothing-high',
				sizes: { from: 1.2 * smoothing, to: 30 * smoothing },
				set: (sound, size) => ({ ...sound, smoothing: size }),
				pins: ['smoothing'],
				proofs: [SMOOTHING]
			},
			{
				fault: 'smoothing-high',
				part,
				accuses: 'smoothing',
				common: 'occasional',
				suspects: ['smo-open'],
				value: { unit: 'ohm' },
				says: (value) => `The smoothing has risen to ${value}.`
			}
		),
		alone(
			{
				id: 'smoothing-open',
				set: (sound) => ({ ...sound, smoothing: OPEN }),
				pins: ['smoothing']
			},
			{
				fault: 'smoothing-open',
				part,
				common: 'occasional',
				suspects: ['smo-open', 'field-open'],
				says: () => 'The smoothing resistor or choke is open.'
			}
		),
		alone(
			{
				id: 'smoothing-low',
				sizes: { from: smoothing / 30, to: smoothing / 1.2 },
				set: (sound, size) => ({ ...sound, smoothing: size }),
				pins: ['smoothing'],
				proofs: [SMOOTHING]
			},
			{
				fault: 'smoothing-low',
				part,
				accuses: 'smoothing',
				common: 'not listed',
				suspects: ['choke-short'],
				value: { unit: 'ohm' },
				says: (value) => `The smoothing has fallen to ${value}.`
			}
		)
	];
}

const LOAD_HEAVY = { family: 'load-heavy', parted: [{ reading: 'smoothing-lead' }] } as const;
const PART_LOAD =
	'Unplugged and discharged: lift the smoothing capacitor, or put 10 Ω into its lead. What still flows with it lifted goes into the stages behind it.';

function loadRows(load: number): Row[] {
	return [
		alone(
			{
				id: 'smoothed-leak',
				...LOAD_HEAVY,
				sizes: { from: 500, to: 100e3 },
				set: (sound, size) => ({ ...sound, smoothedLeak: 1 / size }),
				pins: ['smoothedLeak'],
				proofs: [{ reading: 'smoothing-lead' }, SMOOTHING, DROP]
			},
			{
				fault: 'smoothed-leak',
				part: 'smoothing capacitor or a load behind it',
				common: 'occasional',
				suspects: ['smo-short', 'ht-short'],
				value: { unit: 'ohm' },
				says: (value) => `Something behind the smoothing draws too much, like a leak to chassis of ${value}.`
			},
			PART_LOAD
		),
		alone(
			{
				id: 'load-heavy',
				...LOAD_HEAVY,
				sizes: { from: 1.25 * load, to: 6 * load },
				set: (sound, size) => ({ ...sound, load: size }),
				pins: ['load'],
				proofs: [{ reading: 'smoothing-lead' }, SMOOTHING, DROP]
			},
			{
				fault: 'load-heavy',
				part: 'load behind the smoothing',
				common: 'occasional',
				suspects: ['ht-short'],
				value: { unit: 'A' },
				says: (value) => `The valves behind the smoothing draw too much, or something leaks there: ${value}.`
			},
			PART_LOAD
		),
		alone(
			{
				id: 'load-light',
				sizes: { from: 0.03 * load, to: 0.78 * load },
				set: (sound, size) => ({ ...sound, load: size }),
				pins: ['load'],
				proofs: [SMOOTHING, DROP]
			},
			{
				fault: 'load-light',
				part: 'valves of the set',
				common: 'occasional',
				suspects: [],
				value: { unit: 'A' },
				says: (value) =>
					`The set draws too little behind the smoothing: ${value}. Look for a stage without current.`
			}
		)
	];
}

const noVolts: Row = {
	id: 'no-volts',
	set: (sound) => ({ ...sound, firstOhms: OPEN, secondOhms: OPEN }),
	pins: ['firstOhms', 'secondOhms'],
	causes: [
		{
			fault: 'rectifier-dead',
			part: 'rectifier valve, its heater or the surge resistor',
			common: 'occasional',
			suspects: ['rect-dead', 'surge-open'],
			says: () => 'The rectifier passes no current: cold, worn out, or cut off by an open surge resistor.'
		}
	],
	partBy: ''
};

const shorted: Row = alone(
	{
		id: 'reservoir-short',
		set: (sound) => ({ ...sound, reservoirLeak: SHORT }),
		pins: ['reservoirLeak']
	},
	{
		fault: 'reservoir-short',
		part: 'reservoir capacitor',
		common: 'occasional',
		suspects: ['res-short'],
		says: () => 'The reservoir is shorted to chassis. Unplug the set at once.'
	}
);

const smoothedShort: Row = alone(
	{
		id: 'smoothed-short',
		set: (sound) => ({ ...sound, smoothedLeak: SHORT }),
		pins: ['smoothedLeak']
	},
	{
		fault: 'smoothed-short',
		part: 'smoothing capacitor or a load behind it',
		common: 'occasional',
		suspects: ['smo-short', 'ht-short'],
		says: () =>
			'The line behind the smoothing is shorted to chassis: its capacitor, or what hangs on it. Unplug the set at once.'
	}
);

/** Every fault that can be told from the volts of a supply; `known.winding`: the volts of its winding are known. */
export const rectifierFaults = (sound: Supply, known: { winding: boolean; halfWave: boolean }): Row[] => [
	...sourceRows(sound.firstOhms, sound.reservoir, known.halfWave),
	...windingRows(known, sound.winding),
	noVolts,
	shorted,
	smoothedShort,
	...smoothingRows(sound.smoothing),
	...loadRows(sound.load)
];
