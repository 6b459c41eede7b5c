import { runCalculation } from '../calculations/index.ts';
import { FITS, isCapacitor, isResistor, type Duty, type PartLook } from '../flow/part-terms.ts';
import { verdictFor } from '../flow/parts.ts';
import type { Library } from '../flow/library.ts';
import type { PartVerdict } from '../flow/schema.ts';
import { parseAnyQuantity, printQuantity } from '../quantity/index.ts';
import type { Part } from './parts.ts';

/** What is to be done with each part, and what to buy for it. */

export type Decision = 'change' | 'measure' | 'leave' | 'done';

/** Beyond this share of its value a carbon resistor is changed (source: row `resistors` of the table of verdicts). */
const RESISTOR_OFF = 0.2;

const readBack = ({ found }: Part): number | undefined => {
	const read = found === undefined ? undefined : parseAnyQuantity(found, { comma: 'thousands' });
	return read?.ok ? read.value : undefined;
};

/** Whether a resistor that was measured has kept its value; `undefined` where one of the two is not known. */
function keptValue(part: Part): boolean | undefined {
	const read = readBack(part);
	if (!isResistor(part.kind) || part.value === undefined || read === undefined) return undefined;
	return Math.abs(read / part.value - 1) <= RESISTOR_OFF;
}

/** What is to be done now: what was found on the part speaks before the table. */
export function decisionFor(part: Part, verdict: PartVerdict | undefined): Decision {
	switch (part.state) {
		case 'changed':
			return 'done';
		case 'left':
		case 'good':
			return 'leave';
		case 'bad':
			return 'change';
		case 'value': {
			const kept = keptValue(part);
			if (kept !== undefined) return kept ? 'leave' : 'change';
			return verdict?.verdict ?? 'measure';
		}
		case 'continuity':
			return isCapacitor(part.kind) || verdict?.verdict !== 'measure'
				? (verdict?.verdict ?? 'measure')
				: 'leave';
		default:
			return verdict?.verdict ?? 'measure';
	}
}

export interface ShoppingRow {
	/** `47 nF 630 V, plastic foil`. */
	text: string;
	/** Names of the parts that it is for. */
	names: string[];
	notes: string[];
	/** Something of it is not known yet. */
	open: boolean;
}

/** Values and volts that are usually in stock. Common practice, no source. */
const ELECTROLYTICS_UF = [1, 2.2, 3.3, 4.7, 10, 22, 33, 47, 68, 100, 220, 470, 1000];
const FOIL_VOLTS = [100, 250, 400, 630, 1000, 1600, 2000];
const ELECTROLYTIC_VOLTS = [16, 25, 35, 50, 63, 100, 160, 250, 350, 400, 450, 500];
const WATTS = [0.5, 1, 2, 3, 5, 7, 10, 17, 25];
/** What a foil part at HT should bear where the old rating is not known. Common practice, no source. */
const FOIL_USUAL = 630;
/** The same for an electrolytic at a cathode. */
const CATHODE_USUAL = 25;
/** Above the old rating, for foil: old ratings were often met to the full. Common practice, no source. */
const MARGIN = 1.1;

const LOW_VOLT: readonly Duty[] = ['cathode', 'bias-by-pass', 'ratio-detector'];
/** Where more capacitance than drawn does no harm, within limits. */
const FREE_UPWARDS: readonly Duty[] = [
	'output-coupling',
	'coupling',
	'screen',
	'decoupling',
	'avc',
	'cathode'
];
const EXACT: readonly Duty[] = ['tuned', 'if-can', 'oscillator-grid', 'tone'];

/** What is bought in the place of an old kind. */
const NEW_KIND: Partial<Record<PartLook, string>> = {
	paper: 'plastic foil',
	capacitor: 'plastic foil',
	foil: 'plastic foil',
	ceramic: 'ceramic',
	mica: 'silver mica',
	electrolytic: 'electrolytic',
	resistor: 'carbon or metal film',
	wirewound: 'wirewound'
};

interface Found {
	text?: string;
	notes: string[];
	open?: true;
}

const nearest = (value: number, series: string): number => {
	const run = runCalculation('replacement-value', { value, series });
	return run.ok ? Number(run.outputs['nearest']) : value;
};

const offWords = (value: number, old: number): string =>
	`${Math.round(Math.abs(100 * (value / old - 1)))} % ${value > old ? 'more' : 'less'} than marked`;

function electrolyticValue(old: number): Found {
	const stock = ELECTROLYTICS_UF.map((figure) => Number(`${figure}e-6`));
	const value = stock.reduce((best, one) =>
		Math.abs(Math.log(one / old)) < Math.abs(Math.log(best / old)) ? one : best
	);
	const run = runCalculation('replacement-value', {
		C_old_uF: old * 1e6,
		C_new_uF: value * 1e6,
		use: 'reservoir or smoothing'
	});
	const fits = run.ok && run.verdict !== 'refuse';
	const notes = value === old ? [] : [offWords(value, old)];
	return { text: printQuantity(value, 'F'), notes: fits ? notes : [...notes, 'make the value up from two'] };
}

function foilValue(old: number, duty: Duty | undefined): Found {
	const exact = duty !== undefined && EXACT.includes(duty);
	const value = nearest(old, exact ? 'E24' : 'E6');
	const more = [1.5, 2.2].map((factor) => nearest(value * factor, 'E6')).find((one) => one > value);
	const free = duty !== undefined && FREE_UPWARDS.includes(duty);
	const next = free && more !== undefined && more <= old * 1.5 ? more : undefined;
	return {
		text: printQuantity(value, 'F', { digits: 3 }),
		notes: [
			...(Math.abs(value / old - 1) < 0.005 ? [] : [offWords(value, old)]),
			...(next === undefined ? [] : [`or ${printQuantity(next, 'F', { digits: 3 })}, ${offWords(next, old)}`])
		]
	};
}

function valueFor(part: Part): Found {
	const { value, kind, duty } = part;
	if (value === undefined)
		return isCapacitor(kind) || isResistor(kind)
			? { text: 'value not known', notes: ['read its value from the part or the diagram'], open: true }
			: { notes: [] };
	if (kind === 'electrolytic') return electrolyticValue(value);
	if (isCapacitor(kind)) return foilValue(value, duty);
	const near = nearest(value, 'E24');
	return {
		text: printQuantity(near, 'ohm', { digits: 3 }),
		notes: Math.abs(near / value - 1) < 0.005 ? [] : [offWords(near, value)]
	};
}

const stocked = (needed: number, stock: readonly number[]): number =>
	stock.find((one) => one >= needed) ?? Math.ceil(needed);

function ratingFor(part: Part, verdict: PartVerdict | undefined): Found {
	const { kind, duty, rating } = part;
	const read = rating === undefined ? undefined : parseAnyQuantity(rating);
	if (isResistor(kind)) {
		const watts = read?.ok && read.unit === 'W' ? read.value : undefined;
		if (watts !== undefined) return { text: printQuantity(stocked(watts, WATTS), 'W'), notes: [] };
		return { text: 'watts not known', notes: ['work its watts out from volts and ohms'], open: true };
	}
	if (!isCapacitor(kind)) return { notes: [] };
	if (verdict?.fit) return { text: FITS[verdict.fit], notes: [] };
	const volts = read?.ok && read.unit === 'V' ? read.value : undefined;
	if (kind !== 'electrolytic')
		return {
			text: printQuantity(volts === undefined ? FOIL_USUAL : stocked(volts * MARGIN, FOIL_VOLTS), 'V'),
			notes: []
		};
	if (volts !== undefined)
		return {
			text: printQuantity(stocked(volts, ELECTROLYTIC_VOLTS), 'V'),
			notes:
				duty && LOW_VOLT.includes(duty)
					? []
					: ['at least 1.1 times the highest peak, while the valves are cold']
		};
	if (duty && LOW_VOLT.includes(duty)) return { text: `${CATHODE_USUAL} V or more`, notes: [] };
	return { text: 'volts not known', notes: ['at least 1.1 times the highest peak of the HT'], open: true };
}

function rowFor(part: Part, verdict: PartVerdict | undefined): ShoppingRow {
	const value = valueFor(part);
	const rating = ratingFor(part, verdict);
	// A class or a class of volts names the kind by itself.
	const kind = verdict?.fit ? 'capacitor' : (NEW_KIND[part.kind] ?? '');
	const figures = [value.text, rating.text].filter(Boolean).join(', ');
	const text = figures ? [figures, kind].filter(Boolean).join(', ') : part.name;
	const reservoir = part.duty === 'reservoir' ? ['not above what the rectifier bears'] : [];
	return {
		text,
		names: [part.name],
		notes: [...value.notes, ...rating.notes, ...reservoir],
		open: value.open === true || rating.open === true
	};
}

/** What to buy: everything that is to be changed, alike parts as one row, what is not known last. */
export function shoppingList(parts: readonly Part[], library: Pick<Library, 'verdicts'>): ShoppingRow[] {
	const rows = new Map<string, ShoppingRow>();
	for (const part of parts) {
		const verdict = verdictFor(library, part.kind, part.duty);
		if (decisionFor(part, verdict) !== 'change') continue;
		const row = rowFor(part, verdict);
		const key = [row.text, ...row.notes].join();
		const same = rows.get(key);
		rows.set(key, same ? { ...same, names: [...same.names, ...row.names] } : row);
	}
	return [...rows.values()].sort((a, b) => Number(a.open) - Number(b.open));
}

/** The list as text, to be sent or taken along. */
export const shoppingText = (title: string, rows: readonly ShoppingRow[]): string =>
	[
		`Parts for ${title}`,
		...rows.map(({ text, names, notes }) =>
			[`${names.length} x ${text}`, `   for ${names.join(', ')}`, ...notes.map((note) => `   ${note}`)].join(
				'\n'
			)
		),
		'Parts across the mains and from mains to chassis carry the class mark named here, or are not fitted.'
	].join('\n');
