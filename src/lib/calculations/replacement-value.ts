import { printQuantity } from '../quantity/index.ts';
import { defineCalculation } from './define.ts';
import { choice, number, numbers, optional } from './inputs.ts';
import {
	type Combination,
	combinations,
	nearestPreferred,
	reciprocalSum,
	SERIES,
	type SeriesName,
	sum,
	valuesAround
} from './preferred-values.ts';
import {
	IMPULSE,
	markFit,
	MARKS,
	PLACES,
	POSITIONS,
	type Subclass,
	USES,
	valueFit
} from './replacement-rules.ts';
import { arithmetic, commonPractice, FOSSEE, OWN_NUMBERS, published } from './sources.ts';

const iec60063 = published('IEC 60063 values as listed at qsl.net/g4usp');
const xAndY = published(
	'KEMET tutorial (digikey), everycircuit.com: Y2 may stand in for X2, X2 never for Y2'
);
const impulse = published('Kyocera safety-standard page (IEC 60384-14)');
const valueBands = commonPractice(
	'value: within 10 % like for like, 5 % in tuned and tone circuits, -20 to +50 % for coupling, decoupling and smoothing'
);
const voltBand = commonPractice(
	'working volts equal or higher; an electrolytic at least 1.1 times the highest peak'
);
const outputStage = commonPractice(
	'1500 V class for tone capacitors from anode to chassis in the output stage; 1000 to 1600 V DC or a Y class for buffers at the rectifier'
);
const addition = arithmetic('parts in series and parallel');

/** What an electrolytic has to bear above the highest peak. */
const MARGIN = 1.1;
const SHOWN = 8;
const [firstSeries, ...otherSeries] = Object.keys(SERIES) as SeriesName[];
const SERIES_NAMES = [firstSeries ?? 'E6', ...otherSeries] as const;
const SUBCLASSES = Object.keys(IMPULSE) as [Subclass, ...Subclass[]];

const offPct = (value: number, wanted: number): number => 100 * (value / wanted - 1);

/** One way to make the value, in words and figures. */
function lineOf({ parts, joined, value }: Combination, wanted: number, unit: 'ohm' | 'F') {
	const printed = parts.map((part) => printQuantity(part, unit)).join(' and ');
	return {
		parts: joined === 'alone' ? printed : `${printed} ${joined}`,
		[unit === 'ohm' ? 'R_ohm' : 'C_uF']: value,
		off_pct: offPct(value, wanted)
	};
}

interface Wanted {
	wanted: number;
	drawer: readonly number[] | undefined;
	series: SeriesName | undefined;
	unit: 'ohm' | 'F';
}

/** From the drawer where there is one, else from the whole series, three decades either way. */
function made({ wanted, drawer, series, unit }: Wanted) {
	const stock = drawer ?? (series && valuesAround(wanted, series, unit === 'ohm' ? 2 : 1));
	if (!stock) return {};
	const found = combinations(wanted, stock, unit === 'ohm' ? 'in series' : 'in parallel', SHOWN);
	const [best] = found;
	return {
		best: best && lineOf(best, wanted, unit).parts,
		bestOff: best && Math.abs(offPct(best.value, wanted)),
		ways: found.map((one) => lineOf(one, wanted, unit))
	};
}

/**
 * Which part may replace this one: preferred values, combinations, working volts, safety class.
 *
 *     nearest: smallest |ln(value / wanted)| over the series
 *     resistors in series and capacitors in parallel add; the other way their reciprocals add
 *     V_peak = sqrt2 * V_secondary * V_mains_max / V_tap,  working volts >= 1.1 V_peak      V
 *
 * Capacitors in series share the volts by their leakage: they need equalising resistors. Local codes decide on mains parts.
 */
export const replacementValue = defineCalculation({
	id: 'replacement-value',
	title: 'Replacement part',
	question: 'Which part may replace this one, by value, volts and safety class?',
	group: 'Parts and values',
	words: [
		'preferred',
		'E12',
		'E24',
		'drawer',
		'X2',
		'Y2',
		'mains capacitor',
		'series',
		'parallel',
		'substitute',
		'replace',
		'replacement',
		'equivalent',
		'nearest value',
		'working voltage',
		'X capacitor',
		'Y capacitor',
		'paper capacitor',
		'wrong value'
	],
	inputs: {
		value: optional(number('value', 'value wanted, as a bare figure', 1e-12, 1e12)),
		series: optional(choice('series', 'series', SERIES_NAMES)),
		resistor: optional(number('R_wanted_ohm', 'resistor wanted', 0.1, 100e6)),
		resistorDrawer: optional(
			numbers('drawer_ohm', 'resistors in the drawer', 0.01, 1e9, { most: 300, kept: true })
		),
		capacitor: optional(number('C_wanted_uF', 'capacitor wanted', 1e-12, 0.1)),
		capacitorDrawer: optional(
			numbers('drawer_uF', 'capacitors in the drawer', 1e-13, 1, { most: 300, kept: true })
		),
		seriesOhm: optional(numbers('series_ohm', 'resistors in series', 0.01, 1e9)),
		parallelOhm: optional(numbers('parallel_ohm', 'resistors in parallel', 0.01, 1e9)),
		seriesFarad: optional(numbers('series_uF', 'capacitors in series', 1e-13, 1)),
		parallelFarad: optional(numbers('parallel_uF', 'capacitors in parallel', 1e-13, 1)),
		oldResistor: optional(number('R_old_ohm', 'old resistor', 0.1, 100e6)),
		newResistor: optional(number('R_new_ohm', 'new resistor', 0.1, 100e6)),
		oldCapacitor: optional(number('C_old_uF', 'old capacitor', 1e-12, 0.1)),
		newCapacitor: optional(number('C_new_uF', 'new capacitor', 1e-12, 0.1)),
		capacitorLimit: optional(number('C_limit_uF', 'largest reservoir that the rectifier bears', 1e-6, 1e-3)),
		oldVolts: optional(number('V_old', 'working volts of the old one', 1, 20e3)),
		newVolts: optional(number('V_new', 'working volts of the new one', 1, 20e3)),
		oldPower: optional(number('P_old_W', 'rating of the old resistor', 0.01, 500)),
		newPower: optional(number('P_new_W', 'rating of the new one', 0.01, 500)),
		use: optional(choice('use', 'what it does', USES)),
		position: optional(choice('position', 'where it sits', POSITIONS)),
		mark: optional(choice('mark', 'mark of the new part', MARKS)),
		subclass: optional(choice('subclass', 'safety class', SUBCLASSES)),
		secondary: optional(number('V_secondary_rms', 'AC of the transformer, one side', 1, 2000)),
		mains: optional(number('V_mains_max', 'highest mains', 90, 280)),
		tap: optional(number('V_tap', 'mains tap in use', 90, 280))
	},
	ways: [
		{ title: 'the nearest preferred value', needs: ['value', 'series'] },
		{ title: 'a resistor from my drawer', needs: ['resistor', 'resistorDrawer'], also: ['series'] },
		{ title: 'a capacitor from my drawer', needs: ['capacitor', 'capacitorDrawer'], also: ['series'] },
		{ title: 'a resistor from two of a series', needs: ['resistor', 'series'] },
		{ title: 'a capacitor from two of a series', needs: ['capacitor', 'series'] },
		{
			title: 'an old resistor and a new one',
			needs: ['oldResistor', 'newResistor'],
			also: ['use', 'oldPower', 'newPower']
		},
		{
			title: 'an old capacitor and a new one',
			needs: ['oldCapacitor', 'newCapacitor'],
			also: ['position', 'use', 'oldVolts', 'newVolts', 'mark', 'capacitorLimit']
		},
		{ title: 'a mains or high-voltage capacitor', needs: ['position'], also: ['mark'] },
		{ title: 'what a safety class bears', needs: ['subclass'] },
		{ title: 'working volts behind a transformer', needs: ['secondary'], also: ['mains', 'tap', 'newVolts'] },
		{ title: 'resistors in parallel', needs: ['parallelOhm'], also: ['seriesFarad'] },
		{ title: 'resistors in series', needs: ['seriesOhm'] },
		{ title: 'capacitors in series', needs: ['seriesFarad'] },
		{ title: 'capacitors in parallel', needs: ['parallelFarad'] },
		{ title: 'the values of a series', needs: ['series'] }
	],
	outputs: {
		nearest: { key: 'nearest', label: 'Nearest preferred value', digits: 4 },
		off: { key: 'off_pct', label: 'Off by' },
		values: { key: 'values', label: 'Values of the series' },
		best: { key: 'best', label: 'Nearest' },
		bestOff: { key: 'best_off_pct', label: 'The nearest is off by' },
		ways: {
			key: 'ways',
			label: 'Ways to make it',
			columns: { parts: 'Parts', R_ohm: 'Together', C_uF: 'Together', off_pct: 'Off by' }
		},
		resistance: { key: 'R_ohm', label: 'Resistors together', digits: 4 },
		capacitance: { key: 'C_uF', label: 'Capacitors together', digits: 4 },
		fit: { key: 'value_fit', label: 'Value' },
		volts: { key: 'V_of_needed_pct', label: 'Working volts, of what is needed' },
		power: { key: 'P_of_needed_pct', label: 'Rating, of the old one' },
		marked: { key: 'mark_fits', label: 'Safety class' },
		classes: { key: 'classes', label: 'Classes that may sit there' },
		notAllowed: { key: 'not_allowed', label: 'Never there' },
		impulse: { key: 'impulse_kV_max', label: 'Largest impulse' },
		peak: { key: 'V_peak', label: 'Highest peak', digits: 4 },
		working: { key: 'V_working', label: 'Working volts, at least' }
	},
	formulaText: [
		'nearest: the smallest |ln(value / wanted)|',
		'resistors in series, capacitors in parallel: the sum',
		'resistors in parallel, capacitors in series: 1 / (1/a + 1/b + …)',
		'V_peak = √2 × V_secondary × V_mains_max / V_tap; working volts at least 1.1 × V_peak'
	],
	refuse({ mains, tap, oldVolts, newVolts, secondary, mark, position }) {
		if ((mains === undefined) !== (tap === undefined)) {
			const key = mains === undefined ? 'V_mains_max' : 'V_tap';
			return { key, message: `${key} is missing. Give V_mains_max and V_tap together.` };
		}
		if (newVolts !== undefined && oldVolts === undefined && secondary === undefined)
			return {
				key: 'V_old',
				message: 'V_old is missing: V_new has nothing to be compared with. Give V_old.'
			};
		if (mark === undefined || position !== undefined) return undefined;
		return { key: 'position', message: 'The mark alone says nothing. Say where the part sits.' };
	},
	formula(given) {
		const { value, series, resistor, capacitor, secondary, use = 'like for like' } = given;
		if (value !== undefined && series) {
			const nearest = nearestPreferred(value, series);
			return { nearest, off: offPct(nearest, value) };
		}
		if (resistor) return made({ wanted: resistor, drawer: given.resistorDrawer, series, unit: 'ohm' });
		if (capacitor) return made({ wanted: capacitor, drawer: given.capacitorDrawer, series, unit: 'F' });
		if (given.subclass) return { impulse: IMPULSE[given.subclass] };
		if (secondary) {
			const peak = (Math.SQRT2 * secondary * (given.mains ?? 1)) / (given.tap ?? 1);
			const working = MARGIN * peak;
			return { peak, working, volts: given.newVolts && (100 * given.newVolts) / working };
		}
		const [old, fresh] = [given.oldResistor ?? given.oldCapacitor, given.newResistor ?? given.newCapacitor];
		const place = given.position && PLACES[given.position];
		const tooMuch = given.capacitorLimit !== undefined && (given.newCapacitor ?? 0) > given.capacitorLimit;
		const off = old && fresh ? offPct(fresh, old) : undefined;
		if (off !== undefined || place) {
			return {
				off,
				fit: off === undefined ? undefined : tooMuch ? 'beyond the rectifier' : valueFit(off, use),
				volts: given.newVolts && given.oldVolts && (100 * given.newVolts) / given.oldVolts,
				power: given.newPower && given.oldPower && (100 * given.newPower) / given.oldPower,
				marked: given.mark && given.position && markFit(given.mark, given.position),
				classes: place?.classes,
				notAllowed: place?.notAllowed
			};
		}
		const { seriesOhm, parallelOhm, seriesFarad, parallelFarad } = given;
		const resistance = parallelOhm ? reciprocalSum(parallelOhm) : seriesOhm && sum(seriesOhm);
		const capacitance = seriesFarad ? reciprocalSum(seriesFarad) : parallelFarad && sum(parallelFarad);
		return { resistance, capacitance, values: series && SERIES[series] };
	},
	summary: [
		'The nearest preferred value is {nearest}.',
		'{best} comes nearest, off by {bestOff}.',
		'Together they are {resistance}.',
		'Together they are {capacitance}.',
		'There may sit: {classes}. Never: {notAllowed}.',
		'That class bears an impulse of {impulse}.',
		'The peak is {peak}; the part needs {working} or more.'
	],
	judge: [
		{
			by: 'fit',
			bands: [
				{
					is: 'same',
					verdict: 'same',
					says: 'The value is within 10 %: like for like.',
					source: valueBands
				},
				{
					is: 'fits',
					verdict: 'fits',
					says: 'The value is off by {off}, within what that place bears.',
					source: valueBands
				},
				{
					is: 'beyond the rectifier',
					verdict: 'refuse',
					says: 'The reservoir is larger than the rectifier bears.',
					source: valueBands
				},
				{
					verdict: 'refuse',
					says: 'The value is off by {off}: more than that place bears.',
					source: valueBands
				}
			]
		},
		{
			by: 'volts',
			bands: [
				{
					below: 100,
					verdict: 'refuse',
					says: 'The working volts are only {volts} of what is needed.',
					source: voltBand
				},
				{ verdict: 'same', says: 'The working volts are high enough.', source: voltBand }
			]
		},
		{
			by: 'power',
			bands: [
				{
					below: 100,
					verdict: 'refuse',
					says: 'The rating is only {power} of the old one.',
					source: voltBand
				},
				{ verdict: 'same', says: 'The rating is high enough.', source: voltBand }
			]
		},
		{
			by: 'marked',
			bands: [
				{ is: 'right', verdict: 'same', says: 'The part has a class that may sit there.', source: xAndY },
				{
					is: 'high enough',
					verdict: 'same',
					says: 'The part bears the peaks of that place.',
					source: outputStage
				},
				{
					is: 'too low',
					verdict: 'refuse',
					says: 'The part does not bear the peaks of that place.',
					source: outputStage
				},
				{ verdict: 'refuse', says: 'The part has no class that may sit there.', source: xAndY }
			]
		}
	],
	verdicts: [
		{ verdict: 'same', title: 'May replace it', next: [] },
		{ verdict: 'fits', title: 'Fits, with a difference', next: ['polarity and room for the new part'] },
		{
			verdict: 'refuse',
			title: 'Not this one',
			next: ['another part: value, working volts and mark together']
		}
	],
	cautions: [
		'A capacitor at the mains stands between a person and the mains. Local codes and licensed practice decide.',
		'Between mains and chassis or aerial the value is limited by the current that may be touched: keep the small value.'
	],
	pitfalls: [
		'“0.1 µF 1000 V DC” without an X mark is not a mains part.',
		'Capacitors in series share the volts by their leakage: put equalising resistors across them.',
		'A ceramic in the place of a silver mica detunes with heat.',
		'A larger reservoir surges an old rectifier.',
		'Old values and what takes their place: 0.05 µF is 0.047, 0.02 is 0.022, 0.25 is 0.22, 250 kΩ is 240 or 270, 500 kΩ is 470 or 510, 8 µF is 10, 16 is 22.',
		'Y4 is for mains below 150 V only.'
	],
	sources: [iec60063, xAndY, impulse, valueBands, voltBand, outputStage, addition],
	checks: [
		{
			id: 'replacement-value/1',
			given: { value: 363, series: 'E24' },
			gives: { nearest: 360 },
			withinPct: 0,
			basis: 'published',
			source: published('augustica.com forum t=44')
		},
		{
			id: 'replacement-value/2',
			given: { series: 'E6' },
			gives: { values: [10, 15, 22, 33, 47, 68] },
			withinPct: 0,
			basis: 'published',
			source: iec60063
		},
		{
			id: 'replacement-value/3',
			given: { series: 'E24' },
			gives: {
				values: [
					10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91
				]
			},
			withinPct: 0,
			basis: 'published (another page prints 4.2 for 4.3)',
			source: iec60063
		},
		{
			id: 'replacement-value/4',
			given: { parallel_ohm: [400e3, 400e3], series_uF: [16, 16] },
			gives: { R_ohm: 200e3, C_uF: 8 },
			withinPct: 0.1,
			basis: 'published (200 kohm) / arithmetic',
			source: published('edudirectory.50webs.com elect99')
		},
		{
			id: 'replacement-value/5',
			given: { position: 'across the mains' },
			gives: { classes: ['X1', 'X2', 'Y1', 'Y2'], not_allowed: ['any part without an X or Y mark'] },
			withinPct: 0,
			basis: 'published',
			source: xAndY
		},
		{
			id: 'replacement-value/6',
			given: { position: 'mains to chassis, or live chassis to aerial/earth' },
			gives: { classes: ['Y1', 'Y2'] },
			withinPct: 0,
			basis: 'published',
			source: xAndY
		},
		{
			id: 'replacement-value/7',
			given: { subclass: 'X2' },
			gives: { impulse_kV_max: 2.5 },
			withinPct: 0,
			basis: 'published',
			source: impulse
		},
		{
			id: 'replacement-value/8',
			given: { V_secondary_rms: 240 },
			gives: { V_peak: 339.4 },
			withinPct: 0.1,
			basis: 'published',
			source: published(`Robertson, electrical textbook (title not checked), ex. 6.5, p. 206; ${FOSSEE}`)
		},
		{
			id: 'replacement-value/a capacitor of 350 V behind 250 V on an old tap',
			given: { V_secondary_rms: 250, V_mains_max: 253, V_tap: 220, V_new: 350 },
			gives: { V_peak: 406.6, V_working: 447.2, V_of_needed_pct: 78.26 },
			verdict: 'refuse',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'replacement-value/0.047 µF in the place of 0.05',
			given: { C_old_uF: 0.05, C_new_uF: 0.047, V_old: 400, V_new: 630, use: 'coupling or decoupling' },
			gives: { off_pct: -6, V_of_needed_pct: 157.5, value_fit: 'same' },
			verdict: 'same',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'replacement-value/22 µF in the place of 16',
			given: { C_old_uF: 16, C_new_uF: 22, V_old: 350, V_new: 450, use: 'reservoir or smoothing' },
			gives: { off_pct: 37.5, value_fit: 'fits' },
			verdict: 'fits',
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'replacement-value/X2 from a live chassis to the aerial',
			given: { position: 'mains to chassis, or live chassis to aerial/earth', mark: 'X2' },
			gives: { mark_fits: 'wrong' },
			verdict: 'refuse',
			withinPct: 0,
			basis: 'published',
			source: xAndY
		},
		{
			id: 'replacement-value/1500 V film across the output transformer',
			given: { position: 'anode to chassis in the output stage', mark: '1000 to 1600 V DC film' },
			gives: { mark_fits: 'high enough' },
			verdict: 'same',
			withinPct: 0,
			basis: 'common practice, no source',
			source: outputStage
		},
		{
			id: 'replacement-value/360 ohm from a drawer',
			given: { R_wanted_ohm: 363, drawer_ohm: [100, 150, 220, 330, 470, 680, 1000] },
			gives: { best: '150 Ω and 220 Ω in series', best_off_pct: 1.928 },
			withinPct: 0.1,
			basis: 'arithmetic',
			source: OWN_NUMBERS
		},
		{
			id: 'replacement-value/8 µF from two of E6',
			given: { C_wanted_uF: 8, series: 'E6' },
			gives: { best_off_pct: 0 },
			withinPct: 0,
			withinAbsolute: { best_off_pct: 0.5 },
			basis: 'arithmetic',
			source: OWN_NUMBERS
		}
	]
});
