import { DIGITS } from '$lib/calculations/index.ts';

/** One painted place of a part: its colour and what it stands for there. */
export interface Painted {
	colour: string;
	means: string;
}

/** A part as it lies on the bench. */
export type PartPicture =
	| { shape: 'bands'; bands: readonly Painted[] }
	| { shape: 'body'; body: Painted; end: Painted; dot: Painted; fourth: Painted | undefined }
	| { shape: 'dots'; dots: readonly Painted[] }
	| { shape: 'printed'; kind: 'resistor' | 'capacitor'; text: string }
	| { shape: 'lead'; colours: readonly string[]; means: string };

/** What was given and what came out, by key, as an answer holds them. */
export interface Decoded {
	given: Readonly<Record<string, unknown>>;
	outputs: Readonly<Record<string, unknown>>;
}

const TOLERANCE: Readonly<Record<string, string>> = {
	brown: '1 %',
	red: '2 %',
	gold: '5 %',
	silver: '10 %',
	none: '20 %'
};

const digit = (colour: string): string => String(DIGITS.findIndex((one) => one === colour));
const asDigit = (colour: string): Painted => ({ colour, means: digit(colour) });

function asMultiplier(colour: string): Painted {
	if (colour === 'gold') return { colour, means: '× 0.1' };
	if (colour === 'silver') return { colour, means: '× 0.01' };
	const noughts = Number(digit(colour));
	return {
		colour,
		means: noughts <= 3 ? `× ${10 ** noughts}`.replace('1000', '1,000') : `${noughts} noughts`
	};
}

const asTolerance = (colour: string): Painted => ({ colour, means: TOLERANCE[colour] ?? '' });

function bandsFrom(colours: readonly string[]): PartPicture {
	const figures = colours.length >= 5 ? 3 : 2;
	const bands = colours.map((colour, place) => {
		if (place < figures) return asDigit(colour);
		return place === figures ? asMultiplier(colour) : asTolerance(colour);
	});
	return { shape: 'bands', bands: bands.filter(({ colour }) => colour !== 'none') };
}

const TYPED = ['white', 'black', 'silver'];

function dotsFrom(colours: readonly string[]): PartPicture {
	const typed = colours.length === 6 && TYPED.includes(colours[0] ?? '');
	const places = [
		...(typed ? ['type'] : []),
		'digit',
		'digit',
		...(colours.length === 6 ? (typed ? [] : ['digit']) : ['multiplier']),
		...(colours.length > 3 ? [typed ? 'kind' : 'volts', 'tolerance'] : []),
		...(colours.length === 6 ? ['multiplier'] : [])
	];
	const dots = colours.map((colour, place): Painted => {
		const role = places[place] ?? '';
		if (role === 'digit') return asDigit(colour);
		return role === 'multiplier' ? asMultiplier(colour) : { colour, means: role };
	});
	return { shape: 'dots', dots };
}

const wordOf = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
const wordsOf = (value: unknown): string[] => (wordOf(value) ?? '').split(', ').filter(Boolean);

/** What is to be drawn for a decoded part; undefined where several were asked about, or there is nothing to see. */
export function partPicture({ given, outputs }: Decoded): PartPicture | undefined {
	const bands = Array.isArray(outputs['bands']) ? outputs['bands'].map(String) : wordsOf(given['colours']);
	if (bands.length > 0) return bandsFrom(bands);
	const [body, end] = [wordOf(given['body']), wordOf(given['end'])];
	if (body && end) {
		const fourth = wordOf(given['fourth']);
		return {
			shape: 'body',
			body: asDigit(body),
			end: asDigit(end),
			dot: asMultiplier(wordOf(given['dot']) ?? body),
			fourth: fourth && fourth !== 'none' ? asTolerance(fourth) : undefined
		};
	}
	const dots = wordsOf(given['mica_dots']);
	if (dots.length > 0) return dotsFrom(dots);
	const code = wordOf(given['code']);
	if (code)
		return { shape: 'printed', kind: outputs['ohm'] === undefined ? 'capacitor' : 'resistor', text: code };
	const lead = wordOf(given['transformer_lead']) ?? wordOf(given['if_or_output_lead']);
	const means = wordOf(outputs['winding']) ?? wordOf(outputs['goes_to']);
	return lead && means ? { shape: 'lead', colours: lead.split('/'), means } : undefined;
}
