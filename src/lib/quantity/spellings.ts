import { type ScaleName, scaleOf } from './scales.ts';
import type { Unit } from './units.ts';

/**
 * How the trade writes each unit, old and new. Capitals are not told apart unless the table of doubtful spellings below does so.
 * Spaces and full stops are taken out before looking up; `u` stands for the micro sign, `ohm` for the Greek letter.
 */
const WORDS: Readonly<Partial<Record<ScaleName, string>>> = {
	uV: 'uV microvolt microvolts',
	mV: 'mV millivolt millivolts mVdc mVac mVrms',
	V: 'V volt volts Vdc Vac Vrms voltsdc voltsac',
	kV: 'kV kilovolt kilovolts',
	nA: 'nA nanoamp nanoamps',
	uA: 'uA microamp microamps',
	mA: 'mA milliamp milliamps mAdc mAac mAmp mAmps',
	A: 'A amp amps ampere amperes',
	milliohm: 'milliohm milliohms',
	ohm: 'ohm ohms Rohm Rohms',
	kohm: 'kohm kohms kilohm kilohms kiloohm kiloohms',
	Mohm: 'Mohm Mohms megohm megohms megaohm megaohms megs',
	Gohm: 'Gohm Gohms gigohm gigohms',
	uW: 'uW microwatt microwatts',
	mW: 'mW milliwatt milliwatts',
	W: 'W watt watts',
	kW: 'kW kilowatt kilowatts',
	pF: 'pF pfd uuF uuFd mmF mmfd mmfds picofarad picofarads micromicrofarad micromicrofarads',
	nF: 'nF nfd nanofarad nanofarads',
	uF: 'uF uFd mfd mfds microfarad microfarads',
	millifarad: 'millifarad millifarads',
	F: 'F farad farads',
	nH: 'nH nanohenry nanohenries',
	uH: 'uH microhenry microhenries microhenrys',
	mH: 'mH millihenry millihenries millihenrys',
	H: 'H henry henries henrys hy',
	millihertz: 'millihertz',
	Hz: 'Hz hertz c cs c/s cps cycle cycles',
	kHz: 'kHz kilohertz kc kcs kc/s kcps kilocycle kilocycles',
	MHz: 'MHz megahertz Mc Mcs Mc/s Mcps megacycle megacycles',
	GHz: 'GHz gigahertz',
	us: 'us usec microsecond microseconds',
	ms: 'ms msec millisecond milliseconds',
	s: 's sec secs second seconds',
	min: 'min mins minute minutes',
	h: 'h hr hrs hour hours',
	pct: '% pct pc percent',
	dB: 'dB decibel decibels',
	C: 'C °C degC degreesC degrees celsius degreescelsius',
	uA_V: 'uA/V uS umho umhos micromho micromhos uApervolt',
	mA_V: 'mA/V mS mmho mmhos millimho mApervolt',
	A_V: 'A/V S mho mhos siemens',
	mm: 'mm millimetre millimetres',
	cm: 'cm centimetre centimetres',
	m: 'm metre metres',
	ft: 'ft foot feet',
	VA: 'VA voltamp voltamps',
	deg: '° deg degrees',
	ohm_per_volt: 'ohm/V ohms/V ohm/volt ohms/volt ohmpervolt ohmspervolt',
	kohm_per_volt: 'kohm/V kohms/V kohm/volt kohmpervolt kohmspervolt k/V',
	pF_per_m: 'pF/m pFpermetre',
	pF_per_ft: 'pF/ft pFperfoot',
	uA_V1_5: 'uA/V^1.5',
	mA_V1_5: 'mA/V^1.5'
};

/**
 * Letters that stand alone, in the place of the point or after the number (letter for point: IEC 60062). `E` for ohms is an
 * old Continental marking, from memory.
 */
const LETTERS: Readonly<Partial<Record<Unit, ReadonlyMap<string, ScaleName>>>> = {
	V: new Map([
		['u', 'uV'],
		['m', 'mV'],
		['k', 'kV'],
		['K', 'kV']
	]),
	A: new Map([
		['n', 'nA'],
		['u', 'uA'],
		['m', 'mA']
	]),
	ohm: new Map([
		['R', 'ohm'],
		['r', 'ohm'],
		['E', 'ohm'],
		['k', 'kohm'],
		['K', 'kohm'],
		['M', 'Mohm'],
		['meg', 'Mohm'],
		['G', 'Gohm']
	]),
	W: new Map([
		['u', 'uW'],
		['m', 'mW']
	]),
	F: new Map([
		['p', 'pF'],
		['P', 'pF'],
		['n', 'nF'],
		['N', 'nF'],
		['u', 'uF'],
		['U', 'uF']
	]),
	H: new Map([
		['n', 'nH'],
		['u', 'uH'],
		['m', 'mH']
	]),
	Hz: new Map([
		['k', 'kHz'],
		['K', 'kHz'],
		['M', 'MHz'],
		['meg', 'MHz'],
		['G', 'GHz']
	]),
	S: new Map([
		['u', 'uA_V'],
		['m', 'mA_V']
	]),
	'ohm/V': new Map([
		['k', 'kohm_per_volt'],
		['K', 'kohm_per_volt']
	])
};

/** One thing that a doubtful spelling may mean; `shown` is the scale to print it in when that is not its own. */
export interface Meaning {
	name: ScaleName;
	shown?: ScaleName;
}

const each = (spellings: string, ...meant: (ScaleName | Meaning)[]): [string, Meaning[]][] => {
	const meanings = meant.map((one) => (typeof one === 'string' ? { name: one } : one));
	return spellings.split(' ').map((spelling) => [spelling, meanings]);
};

/**
 * Spellings that are asked about. Old makers wrote a capital or small M for micro on capacitors; phones write small letters
 * for megohms and megahertz, and capitals for milliamps; a k on a capacitor counts thousands of picofarads.
 */
const DOUBTFUL: Readonly<Partial<Record<Unit, ReadonlyMap<string, Meaning[]>>>> = {
	V: new Map(each('M MV Mv', 'mV')),
	A: new Map(each('M MA Ma', 'mA')),
	W: new Map(each('M MW Mw', 'mW')),
	H: new Map(each('M MH Mh', 'mH')),
	S: new Map(each('M MS MA/V', 'mA_V')),
	ohm: new Map(each('m mohm mohms mOhm mOhms', 'Mohm', 'milliohm')),
	Hz: new Map(each('m mhz mHz', 'MHz', 'millihertz')),
	s: new Map(each('m M', 'min', 'ms')),
	F: new Map([
		...each('m mF mf MF Mf', 'uF', 'millifarad'),
		...each('M', 'uF'),
		...each('k K kF KF kf kpF kpf KPF', { name: 'nF', shown: 'pF' })
	])
};

/** What a number without any unit may mean where the base unit is seldom what people write down. */
const WITHOUT_UNIT: Readonly<Partial<Record<Unit, readonly ScaleName[]>>> = {
	A: ['mA', 'A'],
	F: ['pF', 'uF'],
	H: ['uH', 'mH', 'H'],
	Hz: ['kHz', 'Hz', 'MHz'],
	s: ['s', 'min'],
	S: ['mA_V', 'uA_V'],
	m: ['mm', 'm'],
	'F/m': ['pF_per_m'],
	'A/V^1.5': ['uA_V1_5']
};

interface Spelling {
	text: string;
	name: ScaleName;
	unit: Unit;
}

const SPELLINGS: readonly Spelling[] = Object.entries(WORDS).flatMap(([key, words]) => {
	const name = key as ScaleName;
	return words.split(' ').map((text) => ({ text, name, unit: scaleOf(name).unit }));
});

export interface UnitReading {
	meanings: readonly Meaning[];
	/** False where the person is to be asked, even about a single meaning. */
	sure: boolean;
}

const sure = (name: ScaleName): UnitReading => ({ meanings: [{ name }], sure: true });

/** Takes the spaces and full stops out of what stands after a number. */
export const tidyTail = (tail: string): string => tail.replace(/\s+/g, '').replace(/\.(?!\d)/g, '');

/** What no unit at all means where `unit` is wanted. */
export function unitLeftOut(unit: Unit): UnitReading {
	const names = WITHOUT_UNIT[unit];
	if (names) return { meanings: names.map((name) => ({ name })), sure: false };
	const base = SPELLINGS.find((row) => row.unit === unit && scaleOf(row.name).power === 0);
	return sure(base?.name ?? 'number');
}

/** What `tail` means where `unit` is wanted; undefined if it is no spelling of that unit. */
export function readUnit(tail: string, unit: Unit): UnitReading | undefined {
	const doubtful = DOUBTFUL[unit]?.get(tail);
	if (doubtful) return { meanings: doubtful, sure: false };
	const letter = LETTERS[unit]?.get(tail) ?? LETTERS[unit]?.get(tail.toLowerCase());
	if (letter) return sure(letter);
	const mine = SPELLINGS.filter((row) => row.unit === unit);
	const found = mine.find((row) => row.text === tail) ?? mine.find((row) => same(row.text, tail));
	return found && sure(found.name);
}

const same = (a: string, b: string): boolean => a.toLowerCase() === b.toLowerCase();

/** Every unit that a full spelling may belong to; an exact match of capitals outweighs the others. */
export function unitsSpelled(tail: string): Unit[] {
	const exact = SPELLINGS.filter((row) => row.text === tail);
	const rows = exact.length > 0 ? exact : SPELLINGS.filter((row) => same(row.text, tail));
	const spelled = rows.map((row) => row.unit);
	const asked = tail.length > 1 && exact.length === 0 ? unitsInDoubt(tail) : [];
	return [...new Set(asked.length > 0 ? asked : spelled)];
}

const unitsInDoubt = (tail: string): Unit[] =>
	(Object.keys(DOUBTFUL) as Unit[]).filter((unit) => DOUBTFUL[unit]?.has(tail));

/** The unit of a letter alone, as printed on parts: R, k, M, G on resistors, p, n, u on capacitors (IEC 60062). */
export function unitOfLetter(tail: string): Unit | undefined {
	if (/^([RrEkKMG]|meg|Meg|MEG)$/.test(tail)) return 'ohm';
	return /^[pnu]$/i.test(tail) ? 'F' : undefined;
}
