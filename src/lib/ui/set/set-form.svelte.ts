import { emptySetData, MOST, type SetData, type SetPart, type SetValve } from '$lib/job/set-data.ts';
import type { Plan } from '$lib/receiver/index.ts';
import type { SixAnswers } from '$lib/receiver/survey.ts';
import type { ScaleName } from '$lib/quantity/index.ts';
import { readValue, typedValue } from '$lib/ui/value.ts';

/** A valve as it is typed. */
export interface ValveDraft {
	id: string;
	role: string;
	planned?: string;
	listed: string;
	fitted: string;
	kept?: string;
	bands?: string[];
}

/** A part value as it is typed. */
export interface PartDraft {
	key: string;
	typed: string;
	name: string;
	watts: string;
	/** Measured on the part, and not read from drawing or marking. */
	measured?: boolean;
}

export type Made = { ok: true; data: SetData } | { ok: false; problems: string[] };

const text = (value: number | undefined, unit: 'V' | 'ohm' | 'W' | 'F' | 'A'): string =>
	value === undefined ? '' : typedValue(value, unit);

/** Everything that is typed, as plain data. */
export type Draft = Pick<SetForm, (typeof TYPED)[number]>;

const TYPED = [
	'valves',
	'volts',
	'parts',
	'differs',
	'answers',
	'meter',
	'ohmsPerVolt',
	'range',
	'mains',
	'from',
	'winding',
	'reservoir',
	'current'
] as const;

/** What is typed on the page of a set, until it is kept. Texts stay as typed. */
export class SetForm {
	valves = $state<ValveDraft[]>([]);
	volts = $state<Record<string, string>>({});
	parts = $state<PartDraft[]>([]);
	differs = $state<{ what: string; why: string }[]>([]);
	answers = $state<SixAnswers>({});
	meter = $state('');
	ohmsPerVolt = $state('');
	range = $state('');
	mains = $state('');
	from = $state('');
	winding = $state('');
	reservoir = $state('');
	current = $state('');

	constructor(
		plan: Plan,
		planned: Plan,
		data: SetData = emptySetData(),
		service: Readonly<Record<string, number>> = {}
	) {
		const own = Object.entries(plan.valves).map(([id, { type, title }]): ValveDraft => {
			const kept = data.valves.find((valve) => valve.id === id);
			return {
				id,
				role: title,
				planned: planned.valves[id]?.type ?? type,
				listed: kept?.listed ?? type,
				fitted: kept?.fitted ?? '',
				...(kept?.kept === undefined ? {} : { kept: kept.kept }),
				...(kept?.bands === undefined ? {} : { bands: kept.bands })
			};
		});
		const beside = data.valves.filter(({ id }) => !Object.hasOwn(plan.valves, id));
		const others = beside.map(({ id, role, listed, fitted = '', kept, bands }) => ({
			id,
			role,
			listed,
			fitted,
			...(kept === undefined ? {} : { kept }),
			...(bands === undefined ? {} : { bands })
		}));
		this.valves = [...own, ...others];
		const volts = { ...service, ...data.volts };
		this.volts = Object.fromEntries(Object.entries(volts).map(([point, value]) => [point, text(value, 'V')]));
		this.parts = Object.entries(data.parts).map(([key, { typed, name = '', watts, measured = false }]) => ({
			key,
			typed,
			name,
			watts: text(watts, 'W'),
			measured
		}));
		this.differs = data.differs.map(({ what, why = '' }) => ({ what, why }));
		this.answers = { ...data.answers };
		const { sheet } = data;
		this.meter = text(sheet.meter, 'ohm');
		this.ohmsPerVolt = text(sheet.ohmsPerVolt, 'ohm');
		this.range = text(sheet.range, 'V');
		this.mains = text(sheet.mains, 'V');
		this.from = sheet.from ?? '';
		const { winding, reservoir, current } = data.supply ?? {};
		this.winding = text(winding, 'V');
		this.reservoir = text(reservoir, 'F');
		this.current = text(current, 'A');
	}

	/** All of it as text that can be laid by. */
	draft(): string {
		return JSON.stringify(Object.fromEntries(TYPED.map((key) => [key, this[key]])));
	}

	/** What was laid by comes into the fields again; volts that were kept since stay where the draft has none. */
	restore(draft: unknown): void {
		if (typeof draft !== 'object' || draft === null) return;
		const { volts = {}, ...others } = draft as Partial<Draft>;
		Object.assign(this, others);
		const typed = Object.entries(volts).filter(([, text]) => text.trim() !== '');
		this.volts = { ...this.volts, ...Object.fromEntries(typed) };
	}

	addValve(): void {
		const taken = this.valves.map(({ id }) => id);
		const id =
			Array.from({ length: 41 }, (_, index) => `v${index + 1}`).find((name) => !taken.includes(name)) ?? 'v';
		this.valves.push({ id, role: '', listed: '', fitted: '' });
	}

	/**
	 * What is typed as data; or which fields stand against it.
	 *
	 * @param titles of the test points, by id
	 */
	make(titles: Readonly<Record<string, string>> = {}): Made {
		const problems: string[] = [];
		const number = (label: string, typed: string, unit: ScaleName, most: number): number | undefined => {
			const read = readValue(typed, unit);
			if (read.state === 'refused') problems.push(`${label}: ${read.hint}`);
			const value = read.state === 'read' ? read.values[0] : undefined;
			if (value === undefined || Math.abs(value) <= most) return value;
			problems.push(`${label}: ${typed.trim()} is more than a set has. Look at the figure and its unit.`);
			return undefined;
		};
		const positive = (
			label: string,
			typed: string,
			unit: ScaleName,
			most: number = MOST.ohms
		): number | undefined => {
			const value = number(label, typed, unit, most);
			if (value === undefined || value > 0) return value;
			problems.push(`${label}: ${typed.trim()} cannot be. Type a value above nothing, or leave it empty.`);
			return undefined;
		};
		const valves = this.valves.flatMap((valve): SetValve[] => {
			const listed = valve.listed.trim().toUpperCase();
			const fitted = valve.fitted.trim().toUpperCase();
			if (listed === '' && fitted === '' && valve.role.trim() === '') return [];
			if (listed === '')
				problems.push(`${valve.role || 'A valve'}: type which valve the drawing lists here.`);
			const same = fitted !== '' && valve.kept !== undefined;
			return [
				{
					id: valve.id,
					role: valve.role.trim() || 'Valve without a place in the plan',
					listed,
					...(valve.planned === undefined ? {} : { planned: valve.planned }),
					...(fitted === '' ? {} : { fitted }),
					...(same ? { kept: valve.kept as string } : {}),
					...(valve.bands ? { bands: [...valve.bands] } : {})
				}
			];
		});
		const volts = Object.entries(this.volts).flatMap(([point, typed]) => {
			const value = number(titles[point] ?? point, typed, 'V', MOST.volts);
			return value === undefined ? [] : [[point, value] as const];
		});
		const parts = this.parts.flatMap(({ key, typed, name, watts, measured }): [string, SetPart][] => {
			const value = number(name || key, typed, 'ohm', MOST.ohms);
			if (value === undefined || key === '') return [];
			const rating = positive(`Rating of ${name || key}`, watts, 'W', MOST.watts);
			const named = name.trim() ? { name: name.trim().slice(0, 30) } : {};
			const rated = rating === undefined ? {} : { watts: rating };
			const cold = measured ? { measured: true as const } : {};
			return [[key, { typed: typed.trim(), value, ...cold, ...named, ...rated }]];
		});
		const sheet = {
			meter: positive('The sheet’s meter', this.meter, 'ohm'),
			ohmsPerVolt: positive('Ohms per volt', this.ohmsPerVolt, 'ohm'),
			range: positive('Its range', this.range, 'V', MOST.range),
			mains: positive('Mains of the sheet', this.mains, 'V', MOST.mains),
			from: this.from.trim() || undefined
		};
		const supply = {
			winding: positive('AC volts of the HT winding', this.winding, 'V', MOST.winding),
			reservoir: positive('Capacitance of the reservoir', this.reservoir, 'uF', MOST.reservoir),
			current: positive('HT current of the set', this.current, 'mA', MOST.current)
		};
		if (problems.length > 0) return { ok: false, problems };
		const supplied = Object.entries(supply).filter(([, value]) => value !== undefined);
		const told = Object.entries(sheet).filter(([, value]) => value !== undefined);
		const answered = Object.entries(this.answers).filter(([, value]) => value);
		const data: SetData = {
			valves,
			volts: Object.fromEntries(volts),
			sheet: Object.fromEntries(told),
			parts: Object.fromEntries(parts),
			...(supplied.length > 0 ? { supply: Object.fromEntries(supplied) } : {}),
			differs: this.differs.flatMap(({ what, why }) =>
				what.trim() ? [{ what: what.trim(), ...(why.trim() ? { why: why.trim() } : {}) }] : []
			),
			...(answered.length > 0 ? { answers: Object.fromEntries(answered) } : {})
		};
		return { ok: true, data };
	}
}
