import { defineCalculation } from './define.ts';
import { choice, number, numbers, optional } from './inputs.ts';
import { arithmetic, fromMemory, OHM_AND_JOULE, OWN_NUMBERS, published } from './sources.ts';

const currentBand = fromMemory(
	'current of a series chain within 5 % of its rating, to be acted on beyond 10 %'
);
const heaterLaw = fromMemory('the current of a heater goes roughly with its volts to the power of 0.6');
const noRoom = arithmetic('the heaters add up to more than the supply');
const atNormal = published(
	'a receiving-tube manual as quoted on a qth.net list, February 2008: the dropper is chosen for rated current at normal line volts'
);
const outlook = published(
	"a valve maker's Outlook, vol. 12 no. 9, February 1963 (r-type.org add126): single heaters of a chain may see up to 50 % over while warming up"
);
const outerLimit = published('The Radio Constructor, April 1962 (r-type.org add130): 10 % outer limit');
const lineCord = published('capeoldradio.com/cor_pw_cord.php (181 ohm, 16 W)');
const tubecad = published('tubecad.com July 2000 p. 8');
const dropperPage = published(
	'vintage-radio.com, Dropper Calculations: UCH42, UF41, UBC41, UL41, UY41 from 240 V, 1230 ohm'
);

/** Beyond this many times its volts a heater no longer carries current: our own choice. */
const OPEN_HEATER = 3;

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Current of the chain as a share of rated, 1 = 100 %, by the law of heaters; bisection, as heaters and resistor share the volts. */
function shareByLaw(supply: number, heaters: number, dropperVolts: number): number {
	let [low, high] = [0, 10];
	for (let i = 0; i < 60; i++) {
		const share = (low + high) / 2;
		const needed = heaters * share ** (1 / 0.6) + dropperVolts * share;
		if (needed < supply) low = share;
		else high = share;
	}
	return low;
}

/**
 * Dropper of a series heater chain, and the current through a chain with the dropper that is fitted.
 *
 *     V_drop = V_mains - sum of heater volts   V
 *     R = V_drop / I,  P = V_drop * I          ohm, W
 *     I = V_mains / (R + sum of heaters / I_rated)   A, heaters taken as resistors at their working point
 *
 * Heaters rise in resistance as they get hot, so the last line overstates small deviations; a second figure takes the current
 * as volts to the power of 0.6. All volts are RMS; behind a diode in the chain they are 0.707 of the mains.
 */
export const heaterChain = defineCalculation({
	id: 'heater-chain',
	title: 'Series heater chain',
	question: 'Which dropper does this heater chain need, and do the heaters get their current?',
	group: 'Mains, lamp and heaters',
	words: [
		'AC/DC',
		'line cord',
		'ballast',
		'dropper',
		'series heaters',
		'heaters in series',
		'heaters dim',
		'filament',
		'mains dropper',
		'thermistor',
		'pilot lamp',
		'barretter',
		'resistance wire'
	],
	inputs: {
		heaters: optional(numbers('V', 'heater and lamp volts along the chain', 0.5, 120, { most: 30 })),
		current: optional(number('I_A', 'current of the chain by the valve data', 0.03, 1)),
		supply: optional({ ...number('V_mains', 'volts of the supply', 5, 270), alsoKeys: ['V_supply'] }),
		dropper: optional(number('R_dropper_ohm', 'dropper fitted, measured cold', 0, 10e3)),
		diode: optional(choice('diode', 'diode in the chain', ['none', 'one, half wave'])),
		nominal: optional(number('V_heater_nominal', 'volts of one heater by its data', 1, 120)),
		warmUp: optional(number('V_warm_up', 'volts seen on it while warming up', 0, 270))
	},
	ways: [
		{ title: 'the whole chain', needs: ['heaters', 'current', 'supply'], also: ['dropper', 'diode'] },
		{ title: 'one heater while warming up', needs: ['nominal', 'warmUp'] }
	],
	outputs: {
		total: { key: 'V_sum', label: 'Heaters together', digits: 4 },
		drop: { key: 'V_drop', label: 'Volts to drop' },
		resistor: { key: 'R_ohm', label: 'Dropper wanted' },
		heat: { key: 'P_W', label: 'Heat in the dropper' },
		currentShare: { key: 'current_pct', label: 'Current, of rated' },
		lawShare: { key: 'current_law_pct', label: 'Current by the law of heaters, of rated' },
		lack: { key: 'lacking_pct', label: 'Current that the chain lacks without a dropper' },
		over: { key: 'over_pct', label: 'Above nominal while warming up' }
	},
	formulaText: [
		'V_drop = V_mains − sum of V',
		'R = V_drop / I,  P = V_drop × I',
		'with a diode in the chain V_mains / √2 takes the place of V_mains',
		'with a dropper fitted: I = V_mains / (R_dropper + sum of V / I_rated)',
		'by the law of heaters: I follows V to the power of 0.6'
	],
	refuse({ nominal, warmUp }) {
		if (nominal === undefined || warmUp === undefined || warmUp <= OPEN_HEATER * nominal) return undefined;
		return {
			key: 'V_warm_up',
			message:
				'V_warm_up is more than three times V_heater_nominal: that heater is open, and the whole supply stands across it. Unplug, and measure the heater with the ohmmeter.'
		};
	},
	formula({ heaters, current, supply: mains, dropper, diode, nominal, warmUp }) {
		// Half of the power is 0.707 of the RMS.
		const supply = mains !== undefined && diode === 'one, half wave' ? mains / Math.SQRT2 : mains;
		if (heaters === undefined || current === undefined || supply === undefined) {
			const known = nominal !== undefined && warmUp !== undefined;
			return { over: known ? 100 * (warmUp / nominal - 1) : undefined };
		}
		const total = sum(heaters);
		const drop = supply - total;
		// Without room for a dropper the chain hangs on the supply itself.
		const fitted = dropper ?? (drop < 0 ? 0 : undefined);
		const real = fitted === undefined ? undefined : supply / (fitted + total / current);
		return {
			total,
			drop,
			resistor: drop >= 0 ? drop / current : undefined,
			heat: real !== undefined && fitted ? real ** 2 * fitted : drop >= 0 ? drop * current : undefined,
			currentShare: real === undefined ? undefined : (100 * real) / current,
			lack: real !== undefined && drop < 0 ? 100 * (1 - real / current) : undefined,
			lawShare: fitted === undefined ? undefined : 100 * shareByLaw(supply, total, fitted * current)
		};
	},
	summary: [
		'The heaters add up to {total}.',
		'A dropper of {resistor} takes the rest, {drop}.',
		'The dropper loses {heat}.',
		'Taken as resistors the heaters carry {currentShare} of their current; by the law of heaters rather {lawShare}.'
	],
	judge: [
		{
			by: 'lack',
			bands: [
				{
					upTo: 7.5,
					verdict: 'no dropper: under-run by about 5 %',
					says: 'There is no room for a dropper, and the chain gets {currentShare} of its current: as such sets were built.',
					source: currentBand
				},
				{
					verdict: 'no dropper: under-run',
					says: 'There is no room for a dropper: the heaters want more than the supply gives.',
					source: noRoom
				}
			]
		},
		{
			by: 'resistor',
			bands: [{ verdict: 'ok', says: 'The dropper has to take {drop}.', source: atNormal }]
		},
		{
			by: 'currentShare',
			bands: [
				{
					below: 90,
					verdict: 'under-run',
					says: 'The chain is under-run at {currentShare} of its current. Emission falls, and oscillators stop first.',
					source: currentBand
				},
				{
					below: 95,
					verdict: 'low',
					says: 'The chain gets {currentShare} of its current.',
					source: currentBand
				},
				{
					upTo: 105,
					verdict: 'ok',
					says: 'The chain gets {currentShare} of its current.',
					source: currentBand
				},
				{
					upTo: 110,
					verdict: 'high',
					says: 'The chain gets {currentShare} of its current.',
					source: currentBand
				},
				{
					verdict: 'over-run',
					says: 'The chain is over-run at {currentShare} of its current. Heaters do not last so.',
					source: currentBand
				}
			]
		},
		{
			by: 'over',
			bands: [
				{ upTo: 10, verdict: 'ok', says: 'The heater is within 10 % of its volts.', source: outerLimit },
				{
					upTo: 50,
					verdict: 'tolerated while warming up only',
					says: 'The heater stands {over} above its volts: borne for the half minute of warming up, not longer.',
					source: outlook
				},
				{
					verdict: 'too-much',
					says: 'The heater stands {over} above its volts, more than is borne even while warming up.',
					source: outlook
				}
			]
		}
	],
	verdicts: [
		{ verdict: 'ok', next: ['the volts across one heater, set warm'] },
		{
			verdict: 'no dropper: under-run by about 5 %',
			next: ['mains volts today: with 5 % less the oscillator may stop']
		},
		{ verdict: 'low', next: ['the dropper, measured cold', 'mains volts today'] },
		{ verdict: 'high', next: ['the tap of the dropper', 'mains volts today'] },
		{
			verdict: 'no dropper: under-run',
			next: ['whether every valve has the heater that the chain was made for']
		},
		{
			verdict: 'tolerated while warming up only',
			next: [
				'the same volts after two minutes',
				'a thermistor in the chain, or the valve that warms up slowest'
			]
		},
		{
			verdict: 'under-run',
			next: ['the dropper, for drift or a wrong tap', 'a valve of another heater current']
		},
		{
			verdict: 'over-run',
			next: [
				'a bridged section of the dropper',
				'heater to cathode leakage low in the chain',
				'a shortened line cord'
			]
		},
		{ verdict: 'too-much', next: ['heaters of equal current in all places', 'a thermistor in the chain'] }
	],
	cautions: [
		'A series set has a live chassis: isolating transformer before any meter goes on.',
		'Never pull a valve from a live chain: the whole supply stands across the gap.'
	],
	pitfalls: [
		'Dial lamps belong to the list; a shunted lamp counts with its shunt.',
		'A diode in the chain halves the power, not the volts: 0.707 of the RMS. Only a true-RMS meter reads there.',
		'A resistive line cord is never shortened, and never coiled up: it is the dropper.',
		'Droppers run at tens of watts: air round them, no plastic near.'
	],
	sources: [OHM_AND_JOULE, atNormal, currentBand, heaterLaw, outerLimit, outlook],
	checks: [
		{
			id: 'heater-chain/1',
			given: { V: [6.3, 6.3, 25, 25], I_A: 0.3, V_mains: 117 },
			gives: { V_sum: 62.6, V_drop: 54.4, R_ohm: 181.3, P_W: 16.3 },
			verdict: 'ok',
			withinPct: 0.3,
			basis: 'published (181 ohm, 16 W)',
			source: lineCord
		},
		{
			id: 'heater-chain/2',
			given: { V: [12.6], I_A: 0.3, V_supply: 18.9 },
			gives: { R_ohm: 21 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'published (12SN7 from 18.9 V; the page misprints the watts of this case)',
			source: tubecad
		},
		{
			id: 'heater-chain/3',
			given: { V: [6.3], I_A: 0.6, V_supply: 18.9 },
			gives: { R_ohm: 21, P_W: 7.56 },
			verdict: 'ok',
			withinPct: 1,
			basis: 'published (21 ohm, 7.5 W)',
			source: tubecad
		},
		{
			id: 'heater-chain/4',
			given: { V: [12.6, 12.6, 12.6, 50, 35], I_A: 0.15, V_mains: 117 },
			gives: { V_sum: 122.8, V_drop: -5.8, current_pct: 95.3 },
			verdict: 'no dropper: under-run by about 5 %',
			withinPct: 0.5,
			basis: 'arithmetic (valve ratings from memory: 12SA7, 12SK7, 12SQ7, 50L6, 35Z5)',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/a chain for 130 V on 115 V',
			given: { V: [12.6, 12.6, 12.6, 50, 42], I_A: 0.15, V_mains: 115 },
			gives: { V_drop: -14.8, current_pct: 88.6, lacking_pct: 11.4 },
			verdict: 'under-run',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/a chain of 126 V on 115 V',
			given: { V: [12.6, 12.6, 12.6, 50, 38.2], I_A: 0.15, V_mains: 115 },
			gives: { V_drop: -11, current_pct: 91.27, lacking_pct: 8.73 },
			verdict: 'no dropper: under-run',
			withinPct: 0.5,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/5',
			given: { V_heater_nominal: 6.3, V_warm_up: 9.45 },
			gives: { over_pct: 50 },
			verdict: 'tolerated while warming up only',
			withinPct: 0.1,
			basis: 'published limit',
			source: outlook
		},
		{
			id: 'heater-chain/117 V of heaters at 0.1 A from 240 V',
			given: { V: [14, 12.6, 14, 45, 31], I_A: 0.1, V_mains: 240 },
			gives: { V_sum: 116.6, R_ohm: 1230, P_W: 12.3 },
			verdict: 'ok',
			withinPct: 0.5,
			basis: 'published (1230 ohm, 12.3 W with the heaters rounded up to 117 V)',
			source: dropperPage
		},
		{
			id: 'heater-chain/a diode in the chain on 240 V',
			given: { V: [50, 50, 12.6, 12.6, 12.6], I_A: 0.15, V_mains: 240, diode: 'one, half wave' },
			gives: { V_drop: 31.9, R_ohm: 212.7, P_W: 4.786 },
			verdict: 'ok',
			withinPct: 0.2,
			basis: 'arithmetic (0.707 of the RMS: half of the power)',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/the right dropper gives the rated current',
			given: { V: [50, 50], I_A: 0.1, V_mains: 200, R_dropper_ohm: 1000 },
			gives: { current_pct: 100, current_law_pct: 100, P_W: 10 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/dropper 160 ohm too large',
			given: { V: [50, 50], I_A: 0.1, V_mains: 200, R_dropper_ohm: 1160 },
			gives: { current_pct: 92.59 },
			verdict: 'low',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/dropper half as large again',
			given: { V: [50, 50], I_A: 0.1, V_mains: 200, R_dropper_ohm: 1500 },
			gives: { current_pct: 80 },
			verdict: 'under-run',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/dropper 130 ohm too small',
			given: { V: [50, 50], I_A: 0.1, V_mains: 200, R_dropper_ohm: 870 },
			gives: { current_pct: 106.95 },
			verdict: 'high',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/half of the dropper bridged',
			given: { V: [50, 50], I_A: 0.1, V_mains: 200, R_dropper_ohm: 500 },
			gives: { current_pct: 133.3 },
			verdict: 'over-run',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/12 V on a 6.3 V heater at switch-on',
			given: { V_heater_nominal: 6.3, V_warm_up: 12 },
			gives: { over_pct: 90.48 },
			verdict: 'too-much',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'heater-chain/6.6 V on a 6.3 V heater',
			given: { V_heater_nominal: 6.3, V_warm_up: 6.6 },
			gives: { over_pct: 4.762 },
			verdict: 'ok',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
